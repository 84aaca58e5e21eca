#include "model/forecast/summarise.hpp"

#include <algorithm>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/fields.hpp"

namespace stillheap::forecast {
namespace {

constexpr double low_share = 0.10;
constexpr double high_share = 0.90;
constexpr double any = 1e300;

/// The band around a number of the middle line: percentiles of the members, moved, and kept within what can be.
Banded around(double line, double draft, const std::vector<double>& sample, double least, double most) {
  if (sample.empty()) return {line, line, line};
  const double moved = line - draft;
  const double low = std::clamp(percentile(sample, low_share) + moved, least, most);
  const double high = std::clamp(percentile(sample, high_share) + moved, least, most);
  return {line, std::min(low, line), std::max(high, line)};
}

struct Bander {
  const Ensemble& ensemble;

  template <class Value>
  [[nodiscard]] Banded operator()(Value&& value, double least, double most) const {
    std::vector<double> sample;
    for (const RunHistory& track : ensemble.members) sample.push_back(value(track));
    return around(value(ensemble.middle), value(ensemble.draft), sample, least, most);
  }
};

void set_cool_days(const Bander& band, Summary& summary) {
  const auto& [middle, draft, members] = band.ensemble;
  summary.heated = middle.heated;
  if (middle.heat_ended) summary.cool_day = middle.heat_end_day;
  const auto cooled = std::count_if(members.begin(), members.end(), [](const RunHistory& t) { return t.heat_ended; });
  summary.cool_share_of_members =
      members.empty() ? 0.0 : static_cast<double>(cooled) / static_cast<double>(members.size());
  if (!summary.cool_day || cooled == 0) return;
  std::vector<double> days;
  for (const RunHistory& track : members)
    if (track.heat_ended) days.push_back(track.heat_end_day);
  const double moved = draft.heat_ended ? *summary.cool_day - draft.heat_end_day : 0.0;
  summary.cool_day_low = std::clamp(percentile(days, low_share) + moved, 0.0, *summary.cool_day);
  summary.cool_day_high = std::max(percentile(days, high_share) + moved, *summary.cool_day);
}

void set_air(const Bander& band, Summary& s) {
  s.share_3_days_above_55 = band([](const RunHistory& t) { return t.share_3_days; }, 0.0, 1.0);
  s.lowest_oxygen_day = band([](const RunHistory& t) { return t.lowest_oxygen_day; }, 0.0, any);
  s.days_any_below_5_oxygen = band([](const RunHistory& t) { return t.days_any_below_5; }, 0.0, any);
  s.peak_uptake_g_kg_h = band([](const RunHistory& t) { return t.peak_uptake_g_kg_h; }, 0.0, any);
}

void set_water(const Bander& band, Summary& s) {
  const auto leached = [](const RunHistory& t) {
    const double salt_kg = t.first_salt_kg + t.balances.salt.in;
    return salt_kg > 0.0 ? t.balances.salt.out / salt_kg : 0.0;
  };
  s.salt_leached_share = band(leached, 0.0, 1.0);
  s.water_put_on_kg = band([](const RunHistory& t) { return t.balances.sprinkled_kg + t.balances.rain_kg; }, 0.0, any);
  s.water_evaporated_kg = band([](const RunHistory& t) { return t.balances.evaporated_kg; }, -any, any);
  s.water_drained_kg = band([](const RunHistory& t) { return t.balances.drained_kg; }, 0.0, any);
  s.water_made_kg = band([](const RunHistory& t) { return t.balances.water_made_kg; }, 0.0, any);
}

/// A column of the history and the limits that its band cannot pass.
struct Field {
  double HistoryRow::*value;
  double least, most;
};

constexpr double coldest_c = -100.0, hottest_c = 100.0;
constexpr Field fields[] = {{&HistoryRow::mean_c, coldest_c, hottest_c},
                            {&HistoryRow::core_c, coldest_c, hottest_c},
                            {&HistoryRow::hottest_c, coldest_c, hottest_c},
                            {&HistoryRow::coldest_c, coldest_c, hottest_c},
                            {&HistoryRow::lowest_oxygen, 0.0, 0.21},
                            {&HistoryRow::mean_oxygen, 0.0, 0.21},
                            {&HistoryRow::mean_moisture_wet, 0.0, 1.0},
                            {&HistoryRow::dry_mass_kg, 0.0, any},
                            {&HistoryRow::height_m, 0.0, any},
                            {&HistoryRow::uptake_kg_s, 0.0, any},
                            {&HistoryRow::evaporated_kg_day, -any, any},
                            {&HistoryRow::drained_kg_day, 0.0, any},
                            {&HistoryRow::sprinkled_kg_day, 0.0, any}};

/// A history at a day, between its rows.
HistoryRow at_day(const std::vector<HistoryRow>& history, double day) {
  const auto after = std::lower_bound(history.begin(), history.end(), day,
                                      [](const HistoryRow& row, double d) { return row.day < d; });
  if (after == history.begin()) return history.front();
  if (after == history.end()) return history.back();
  const HistoryRow& before = *(after - 1);
  const double t = (day - before.day) / std::max(1e-9, after->day - before.day);
  HistoryRow row = before;
  for (const Field& f : fields) row.*f.value = (1.0 - t) * before.*f.value + t * (*after).*f.value;
  return row;
}

}  // namespace

Summary summarise(const Heap& heap, const Ensemble& ensemble) {
  const Bander band{ensemble};
  const RunHistory& line = ensemble.middle;
  const Balances& balances = line.balances;
  Summary s;
  s.peak_temperature_c = band([](const RunHistory& t) { return t.peak_c; }, -100.0, 100.0);
  s.peak_day = band([](const RunHistory& t) { return t.peak_day; }, 0.0, any);
  s.peak_place = place_of(heap, line.peak_cell);
  s.days_above_55_mass_mean = band([](const RunHistory& t) { return t.days_above_55; }, 0.0, any);
  set_cool_days(band, s);
  s.lowest_oxygen = band([](const RunHistory& t) { return t.lowest_oxygen; }, 0.0, 0.21);
  s.lowest_oxygen_place = place_of(heap, line.lowest_oxygen_cell);
  s.most_mass_below_5_oxygen = band([](const RunHistory& t) { return t.most_mass_below_5; }, 0.0, 1.0);
  s.driest_moisture_wet = band([](const RunHistory& t) { return t.driest; }, 0.0, 1.0);
  s.wettest_moisture_wet = band([](const RunHistory& t) { return t.wettest; }, 0.0, 1.0);
  s.mean_moisture_end_wet = band([](const RunHistory& t) { return t.moisture_end; }, 0.0, 1.0);
  s.solids_lost = band([](const RunHistory& t) { return t.solids_lost; }, 0.0, 1.0);
  s.degradable_left = band([](const RunHistory& t) { return t.degradable_left; }, 0.0, 1.0);
  s.height_lost = band([](const RunHistory& t) { return t.height_lost; }, 0.0, 1.0);
  s.finished_mass_kg = band([](const RunHistory& t) { return t.finished_kg; }, 0.0, any);
  s.finished_volume_m3 = band([](const RunHistory& t) { return t.finished_m3; }, 0.0, any);
  s.salt_concentration_ratio = band([](const RunHistory& t) { return t.salt_ratio; }, 0.0, any);
  set_air(band, s);
  set_water(band, s);
  s.conservation = {balances.solids.error(), balances.oxygen.error(), balances.water.error(),
                    balances.energy.error(), balances.salt.error(),   balances.dry_air.error()};
  return s;
}

void band_history(const Ensemble& ensemble, Result& result) {
  result.history_low = result.history_high = ensemble.middle.history;
  std::vector<HistoryRow> at;
  std::vector<double> sample;
  for (std::size_t r = 0; r < ensemble.middle.history.size(); ++r) {
    const HistoryRow& line = ensemble.middle.history[r];
    const HistoryRow draft = at_day(ensemble.draft.history, line.day);
    at.clear();
    for (const RunHistory& track : ensemble.members) at.push_back(at_day(track.history, line.day));
    for (const Field& f : fields) {
      sample.clear();
      for (const HistoryRow& row : at) sample.push_back(row.*f.value);
      const Banded band = around(line.*f.value, draft.*f.value, sample, f.least, f.most);
      result.history_low[r].*f.value = band.low;
      result.history_high[r].*f.value = band.high;
    }
  }
}

void band_months(const Ensemble& ensemble, Result& result) {
  const Bander band{ensemble};
  for (std::size_t m = 0; m < 12; ++m) {
    const auto set = [&](auto months_of, double least, double& low, double& high) {
      const Banded one = band([&](const RunHistory& t) { return (t.*months_of)[m]; }, least, any);
      low = one.low;
      high = one.high;
    };
    MonthlyMeans& low = result.months_low;
    MonthlyMeans& high = result.months_high;
    set(&RunHistory::evaporated_kg_s, -any, low.evaporated_kg_s[m], high.evaporated_kg_s[m]);
    set(&RunHistory::drained_kg_s, 0.0, low.drained_kg_s[m], high.drained_kg_s[m]);
    set(&RunHistory::salt_out_kg_s, 0.0, low.salt_out_kg_s[m], high.salt_out_kg_s[m]);
  }
}

}  // namespace stillheap::forecast
