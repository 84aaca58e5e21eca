#pragma once
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "model/forecast/central.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/stages.hpp"
#include "records_heap.hpp"
#include "records_zones.hpp"

/// Runs a record and takes measured quantities from the runs.
namespace stillheap::records {

using forecast::HistoryRow;

/// Value of a quantity that a run never reached ("first day above" and the like).
inline constexpr double never = std::numeric_limits<double>::infinity();
inline constexpr double row_s = 21600.0;

inline double temperature(const Seen& seen, std::size_t i, const std::string& of) {
  const HistoryRow& row = seen.track.history[i];
  if (of == "hottest") return row.hottest_c;
  if (of == "core") return row.core_c;
  if (of == "mean") return row.mean_c;
  if (of == "coldest") return row.coldest_c;
  if (of == "inside") return seen.zone[i].inside_c;
  if (of == "top") return seen.zone[i].top_c;
  if (of == "middle") return seen.zone[i].middle_c;
  throw std::runtime_error("a record compares an unknown temperature: " + of);
}

inline bool inside(const HistoryRow& row, const Compare& c) { return row.day >= c.day && row.day <= c.until_day; }

inline double at_day(const Seen& seen, const Compare& c) {
  const auto& history = seen.track.history;
  for (std::size_t i = 1; i < history.size(); ++i) {
    const HistoryRow &a = history[i - 1], &b = history[i];
    if (b.day < c.day) continue;
    const double t = std::clamp((c.day - a.day) / std::max(1e-9, b.day - a.day), 0.0, 1.0);
    return (1.0 - t) * temperature(seen, i - 1, c.of) + t * temperature(seen, i, c.of);
  }
  return never;
}

/// Quantities over the history: "peak", "peak_day", "mean", "days_above", "first_above", "last_above".
inline double over_history(const Seen& seen, const Compare& c) {
  const auto& history = seen.track.history;
  double peak = -never, peak_day = never, sum = 0.0, span = 0.0, days_above = 0.0, first = never, last = never;
  for (std::size_t i = 1; i < history.size(); ++i) {
    const HistoryRow& row = history[i];
    if (!inside(row, c)) continue;
    const double value = temperature(seen, i, c.of), days = row.day - history[i - 1].day;
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
inline double value_of(const Seen& seen, const Compare& c, const forecast::Request& request) {
  const forecast::RunHistory& track = seen.track;
  if (c.measure == "at") return at_day(seen, c);
  if (c.measure == "solids_lost") return track.solids_lost;
  if (c.measure == "volatile_lost") return track.solids_lost / (1.0 - request.blend.ash_dry);
  if (c.measure == "height_lost") return track.height_lost;
  if (c.measure == "mass_lost") {
    const double first_kg = request.blend.bulk_density_kg_m3 * vessel::material_volume_m3(request.design);
    return 1.0 - track.finished_kg / first_kg;
  }
  return over_history(seen, c);
}

/// A bare heap has no cloth to hold vapour back either.
inline physics::Parameters without_cloth(const Record& record, physics::Parameters parameters) {
  if (!record.cloth) parameters.cloth_vapour_s_m = 0.0;
  return parameters;
}

inline Seen see(const forecast::Request& request, const physics::Parameters& parameters) {
  return see(forecast::make_heap(request, parameters, forecast::grid_size(request.design, request.grid)), request.grid,
             row_s);
}

inline forecast::Request draft_of(const Record& record) {
  return forecast::on_grid(record.request, forecast::Grid::draft);
}

/// How many deviates one run of a record takes: the ensemble's own and one for the size.
inline std::size_t deviates() { return forecast::input_count() + 1; }

/// The record as one member of an ensemble. The deviates are the ensemble's own; what the record does not print spreads
/// as far as the record says.
inline forecast::Member member_of(const Record& record, const forecast::Request& draft, std::vector<double> z) {
  const auto widen = [&](std::size_t input, double wanted, double own) { z[input] *= std::max(1.0, wanted / own); };
  widen(forecast::input_density, record.unknown_density, forecast::density_deviation);
  widen(forecast::input_moisture, record.unknown_moisture, forecast::moisture_deviation);
  forecast::Member member = forecast::member_at(draft, z);
  const double length = std::exp(record.unknown_size * z.back());
  vessel::Design& design = member.request.design;
  for (double* value : {&design.diameter_m, &design.length_m, &design.width_m, &design.height_m, &design.fill_height_m})
    *value *= length;
  member.parameters = without_cloth(record, member.parameters);
  return member;
}

/// What the other records taught of this one's class (records/left-out.csv, by tools/condition/score).
inline forecast::Shift left_out(const std::string& id) {
  std::ifstream in(std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/outside/records/left-out.csv");
  for (std::string line; std::getline(in, line);) {
    std::istringstream cells(line);
    std::string cell;
    if (!std::getline(cells, cell, ',') || cell != id) continue;
    forecast::Shift shift{};
    for (double& one : shift) {
      if (!std::getline(cells, cell, ',')) throw std::runtime_error(id + " has too few columns in left-out.csv");
      one = std::stod(cell);
    }
    return shift;
  }
  throw std::runtime_error(id + " is not in left-out.csv");
}

struct Runs {
  Seen middle;
  Seen draft;  ///< the middle's constants on the grid of the members
  std::vector<Seen> members;
};

/// Middle line on the wanted grid and an ensemble on the draft grid, as the forecast itself does; what the record does
/// not print is drawn too.
inline Runs run_record(const Record& record, forecast::Grid grid, int members, std::uint64_t seed) {
  const physics::Parameters central = without_cloth(
      record, forecast::moved_by(forecast::material_parameters(record.request.blend), left_out(record.id)));
  const forecast::Request draft = draft_of(record);
  Runs runs;
  runs.draft = see(draft, central);
  runs.middle = runs.draft;
  if (grid != forecast::Grid::draft) runs.middle = see(forecast::on_grid(record.request, grid), central);
  for (const std::vector<double>& z : forecast::normal_points(deviates(), members, seed)) {
    const forecast::Member member = member_of(record, draft, z);
    Seen seen = see(member.request, member.parameters);
    if (!seen.track.stopped) runs.members.push_back(std::move(seen));
  }
  return runs;
}

struct Banded {
  double middle, low, high;
};

/// The middle with the ensemble's 10th and 90th percentile, moved by what the draft misses of the middle.
inline Banded banded(const Runs& runs, const Compare& c, const forecast::Request& request) {
  std::vector<double> sample;
  for (const Seen& member : runs.members) sample.push_back(value_of(member, c, request));
  const double middle = value_of(runs.middle, c, request), draft = value_of(runs.draft, c, request);
  const double moved = std::isfinite(middle) && std::isfinite(draft) ? middle - draft : 0.0;
  const double low = forecast::percentile(sample, 0.1) + moved, high = forecast::percentile(sample, 0.9) + moved;
  return {middle, std::min(middle, low), std::max(middle, high)};
}

}  // namespace stillheap::records
