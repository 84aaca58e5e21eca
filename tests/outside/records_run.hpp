#pragma once
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <string>
#include <vector>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/run_history.hpp"
#include "records_heap.hpp"

/// Runs a record and takes measured quantities from the runs.
namespace stillheap::records {

using forecast::HistoryRow;
using forecast::RunHistory;

/// Value of a quantity that a run never reached ("first day above" and the like).
inline constexpr double never = std::numeric_limits<double>::infinity();

inline double temperature(const HistoryRow& row, const std::string& of) {
  if (of == "hottest") return row.hottest_c;
  if (of == "core") return row.core_c;
  if (of == "mean") return row.mean_c;
  if (of == "coldest") return row.coldest_c;
  throw std::runtime_error("a record compares an unknown temperature: " + of);
}

inline bool inside(const HistoryRow& row, const Compare& c) { return row.day >= c.day && row.day <= c.until_day; }

inline double at_day(const RunHistory& track, const Compare& c) {
  for (std::size_t i = 1; i < track.history.size(); ++i) {
    const HistoryRow &a = track.history[i - 1], &b = track.history[i];
    if (b.day < c.day) continue;
    const double t = std::clamp((c.day - a.day) / std::max(1e-9, b.day - a.day), 0.0, 1.0);
    return (1.0 - t) * temperature(a, c.of) + t * temperature(b, c.of);
  }
  return never;
}

/// Quantities over the history: "peak", "peak_day", "mean", "days_above", "first_above", "last_above".
inline double over_history(const RunHistory& track, const Compare& c) {
  double peak = -never, peak_day = never, sum = 0.0, span = 0.0, days_above = 0.0, first = never, last = never;
  for (std::size_t i = 1; i < track.history.size(); ++i) {
    const HistoryRow& row = track.history[i];
    if (!inside(row, c)) continue;
    const double value = temperature(row, c.of), days = row.day - track.history[i - 1].day;
    if (value > peak) peak = value, peak_day = row.day;
    sum += value * days, span += days;
    if (value <= c.celsius) continue;
    days_above += days;
    if (first == never) first = row.day;
    last = row.day;
  }
  if (c.measure == "peak") return peak;
  if (c.measure == "peak_day") return peak_day;
  if (c.measure == "mean") return span > 0.0 ? sum / span : never;
  if (c.measure == "days_above") return days_above;
  if (c.measure == "first_above") return first;
  if (c.measure == "last_above") return last;
  throw std::runtime_error("a record compares an unknown measure: " + c.measure);
}

/// Any quantity a record compares.
inline double value_of(const RunHistory& track, const Compare& c, const forecast::Request& request) {
  if (c.measure == "at") return at_day(track, c);
  if (c.measure == "solids_lost") return track.solids_lost;
  if (c.measure == "volatile_lost") return track.solids_lost / (1.0 - request.blend.ash_dry);
  if (c.measure == "height_lost") return track.height_lost;
  if (c.measure == "moisture_end") return track.moisture_end;
  if (c.measure == "evaporated") return track.balances.evaporated_kg;
  if (c.measure == "mass_lost") {
    const double first_kg = request.blend.bulk_density_kg_m3 * vessel::material_volume_m3(request.design);
    return 1.0 - track.finished_kg / first_kg;
  }
  return over_history(track, c);
}

struct Runs {
  RunHistory middle;
  RunHistory draft;  ///< the middle's parameters on the grid of the members
  std::vector<RunHistory> members;
};

inline RunHistory follow_one(const forecast::Request& request, const physics::Parameters& parameters,
                             double history_s) {
  const forecast::Heap heap =
      forecast::make_heap(request, parameters, forecast::grid_size(request.design, request.grid));
  return forecast::follow(heap, forecast::step_rule(request.grid), {history_s, false}, [](double) { return true; });
}

/// Middle line on the wanted grid and an ensemble on the draft grid, as the forecast itself does. A bare heap has no
/// cloth to hold vapour back either.
inline Runs run_record(const Record& record, forecast::Grid grid, int members, std::uint64_t seed) {
  physics::Parameters bare;
  if (!record.cloth) bare.cloth_vapour_s_m = 0.0;
  forecast::Request draft = record.request;
  draft.grid = forecast::Grid::draft;
  draft.weather = weather::daily_means(record.request.weather);
  Runs runs;
  runs.draft = follow_one(draft, bare, 21600.0);
  runs.middle = runs.draft;
  if (grid != forecast::Grid::draft) {
    forecast::Request fine = record.request;
    fine.grid = grid;
    runs.middle = follow_one(fine, bare, 21600.0);
  }
  std::vector<forecast::Member> drawn = forecast::draw_members(draft, members, seed);
  if (!record.cloth)
    for (forecast::Member& member : drawn) member.parameters.cloth_vapour_s_m = 0.0;
  runs.members = forecast::run_members(drawn, [](double) { return true; });
  return runs;
}

struct Banded {
  double middle, low, high;
};

/// The middle with the ensemble's 10th and 90th percentile, moved by what the draft misses of the middle.
inline Banded banded(const Runs& runs, const Compare& c, const forecast::Request& request) {
  std::vector<double> sample;
  for (const RunHistory& member : runs.members) sample.push_back(value_of(member, c, request));
  const double middle = value_of(runs.middle, c, request), draft = value_of(runs.draft, c, request);
  const double moved = std::isfinite(middle) && std::isfinite(draft) ? middle - draft : 0.0;
  const double low = forecast::percentile(sample, 0.1) + moved, high = forecast::percentile(sample, 0.9) + moved;
  return {middle, std::min(middle, low), std::max(middle, high)};
}

}  // namespace stillheap::records
