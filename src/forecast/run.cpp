#include "forecast/run.hpp"

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "forecast/ensemble.hpp"
#include "forecast/fields.hpp"
#include "forecast/model_notes.hpp"
#include "forecast/stages.hpp"

namespace stillheap::forecast {
namespace {

constexpr int most_days = 540;
constexpr double low_share = 0.10;
constexpr double high_share = 0.90;

void check(const Request& request) {
  if (request.days < 1 || request.days > most_days)
    throw InputError("forecast.days", std::to_string(request.days), "use 1 to 540 days");
  if (request.weather.hours.empty()) throw InputError("weather", "no weather was given", "give normals or a file");
  if (!(request.blend.bulk_density_kg_m3 > 0.0) || request.blend.free_air_space <= 0.01)
    throw InputError("blend", "the soaked blend has no air space", "use a drier or coarser blend");
}

/// Middle line with a band from the ensemble, moved by what the draft misses of the middle line.
struct Bander {
  const Track& middle;
  const Track& draft;
  const std::vector<Track>& members;

  template <class Value>
  [[nodiscard]] Banded operator()(Value&& value, double least, double most) const {
    const double line = value(middle);
    if (members.empty()) return {line, line, line};
    std::vector<double> sample;
    for (const Track& track : members) sample.push_back(value(track));
    const double moved = line - value(draft);
    const double low = std::clamp(percentile(sample, low_share) + moved, least, most);
    const double high = std::clamp(percentile(sample, high_share) + moved, least, most);
    return {line, std::min(low, line), std::max(high, line)};
  }
};

void set_cool_days(const Bander& band, Summary& summary) {
  const auto& members = band.members;
  if (band.middle.cool_at_end) summary.cool_day = band.middle.last_warm_day;
  const auto cooled = std::count_if(members.begin(), members.end(), [](const Track& t) { return t.cool_at_end; });
  summary.cool_share_of_members =
      members.empty() ? 0.0 : static_cast<double>(cooled) / static_cast<double>(members.size());
  if (!summary.cool_day || cooled == 0) return;
  std::vector<double> days;
  for (const Track& track : members)
    if (track.cool_at_end) days.push_back(track.last_warm_day);
  const double moved = band.draft.cool_at_end ? *summary.cool_day - band.draft.last_warm_day : 0.0;
  summary.cool_day_low = std::clamp(percentile(days, low_share) + moved, 0.0, *summary.cool_day);
  summary.cool_day_high = std::max(percentile(days, high_share) + moved, *summary.cool_day);
}

Summary summarise(const Heap& heap, const Bander& band) {
  constexpr double any = 1e300;
  const Track& line = band.middle;
  const Ledger& ledger = line.ledger;
  Summary s;
  s.peak_temperature_c = band([](const Track& t) { return t.peak_c; }, -100.0, 100.0);
  s.peak_day = band([](const Track& t) { return t.peak_day; }, 0.0, any);
  s.peak_place = place_of(heap, line.peak_cell);
  s.days_above_55_mass_mean = band([](const Track& t) { return t.days_above_55; }, 0.0, any);
  s.share_3_days_above_55 = line.share_3_days;
  set_cool_days(band, s);
  s.lowest_oxygen = band([](const Track& t) { return t.lowest_oxygen; }, 0.0, 0.21);
  s.lowest_oxygen_place = place_of(heap, line.lowest_oxygen_cell);
  s.lowest_oxygen_day = line.lowest_oxygen_day;
  s.most_mass_below_5_oxygen = band([](const Track& t) { return t.most_mass_below_5; }, 0.0, 1.0);
  s.days_any_below_5_oxygen = line.days_any_below_5;
  s.driest_moisture_wet = band([](const Track& t) { return t.driest; }, 0.0, 1.0);
  s.wettest_moisture_wet = band([](const Track& t) { return t.wettest; }, 0.0, 1.0);
  s.mean_moisture_end_wet = band([](const Track& t) { return t.moisture_end; }, 0.0, 1.0);
  s.solids_lost = band([](const Track& t) { return t.solids_lost; }, 0.0, 1.0);
  s.height_lost = band([](const Track& t) { return t.height_lost; }, 0.0, 1.0);
  s.finished_mass_kg = band([](const Track& t) { return t.finished_kg; }, 0.0, any);
  s.finished_volume_m3 = band([](const Track& t) { return t.finished_m3; }, 0.0, any);
  s.salt_concentration_ratio = band([](const Track& t) { return t.salt_ratio; }, 0.0, any);
  const double salt_kg = line.first_salt_kg + ledger.salt.in;
  s.salt_leached_share = salt_kg > 0.0 ? ledger.salt.out / salt_kg : 0.0;
  s.water_put_on_kg = ledger.sprinkled_kg + ledger.rain_kg;
  s.water_evaporated_kg = ledger.evaporated_kg;
  s.water_drained_kg = ledger.drained_kg;
  s.water_made_kg = ledger.water_made_kg;
  s.peak_uptake_g_kg_h = line.peak_uptake_g_kg_h;
  s.conservation = {ledger.solids.error(), ledger.oxygen.error(), ledger.water.error(),
                    ledger.energy.error(), ledger.salt.error(),   ledger.dry_air.error()};
  return s;
}

/// Value of a history at a day, between its rows.
template <class Value>
double at_day(const std::vector<HistoryRow>& history, double day, Value&& value) {
  const auto after = std::lower_bound(history.begin(), history.end(), day,
                                      [](const HistoryRow& row, double d) { return row.day < d; });
  if (after == history.begin()) return value(history.front());
  if (after == history.end()) return value(history.back());
  const HistoryRow& a = *(after - 1);
  const double t = (day - a.day) / std::max(1e-9, after->day - a.day);
  return (1.0 - t) * value(a) + t * value(*after);
}

void band_history(const Bander& band, std::vector<HistoryRow>& history) {
  if (band.members.empty()) return;
  const auto set = [&](auto&& value, double HistoryRow::*low, double HistoryRow::*high, HistoryRow& row) {
    std::vector<double> sample;
    for (const Track& track : band.members) sample.push_back(at_day(track.history, row.day, value));
    const double moved = value(row) - at_day(band.draft.history, row.day, value);
    row.*low = std::min(value(row), percentile(sample, low_share) + moved);
    row.*high = std::max(value(row), percentile(sample, high_share) + moved);
  };
  for (HistoryRow& row : history) {
    set([](const HistoryRow& r) { return r.core_c; }, &HistoryRow::core_low_c, &HistoryRow::core_high_c, row);
    set([](const HistoryRow& r) { return r.mean_moisture_wet; }, &HistoryRow::moisture_low_wet,
        &HistoryRow::moisture_high_wet, row);
  }
}

std::string words_for(const Lattice& lattice) {
  const int copies = lattice.plan.sector.copies();
  return copies == 1 ? "the whole plan: the channels leave no mirror symmetry"
                     : "1/" + std::to_string(copies) + " of the vessel, mirrored and unfolded";
}

}  // namespace

Result run(const Request& request, const Progress& progress) {
  Checkpoint fresh = checkpoint_for(request);
  return run(request, progress, fresh, {});
}

Result run(const Request& request, const Progress& progress, Checkpoint& checkpoint, const Keeper& keeper) {
  check(request);
  check_same_request(checkpoint, request);
  const Heap heap = make_heap(on_grid(request, request.grid), {}, grid_size(request.design, request.grid));
  Stages work = run_stages(heap, request, progress, checkpoint, keeper);
  Track& middle = work.middle;
  const Bander band{middle, work.draft, work.members};
  Result result;
  result.summary = summarise(heap, band);
  band_history(band, middle.history);
  result.history = std::move(middle.history);
  result.mesh = field_mesh(heap);
  result.snapshots = std::move(middle.snapshots);
  result.evaporated_kg_s = middle.evaporated_kg_s;
  result.drained_kg_s = middle.drained_kg_s;
  result.salt_out_kg_s = middle.salt_out_kg_s;
  result.assumptions = model_notes(request);
  result.solved = words_for(heap.lattice);
  result.cells_solved = heap.lattice.cells();
  result.cells_full = heap.lattice.cells() * heap.lattice.plan.sector.copies();
  result.steps = middle.steps;
  result.members = static_cast<int>(work.members.size());
  result.stopped = work.stopped_by_user ? work.stopped_by_user : middle.stopped;
  result.stopped_by_user = work.stopped_by_user.has_value();
  return result;
}

}  // namespace stillheap::forecast
