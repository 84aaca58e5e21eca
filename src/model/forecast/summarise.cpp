#include "model/forecast/summarise.hpp"

#include <algorithm>
#include <optional>

#include "model/forecast/fields.hpp"
#include "model/forecast/odds.hpp"

namespace stillheap::forecast {
namespace {

struct Bander {
  const Ensemble& ensemble;

  template <class Of>
  [[nodiscard]] Banded operator()(Of&& of, const Kind& kind) const {
    return band_around(of(ensemble.middle), of(ensemble.draft), of_members(ensemble, of), kind, ensemble.grid,
                       ensemble.misses);
  }
};

void set_cool_days(const Ensemble& ensemble, Summary& summary) {
  summary.heated = ensemble.middle.heated;
  summary.cool_day = cool_day_of(ensemble.middle);
  summary.cool_share_of_members = cool_share(ensemble);
  const std::optional<Banded> band = cool_day_band(ensemble);
  if (!band || summary.cool_share_of_members == 0.0) return;
  summary.cool_day_low = band->low;
  summary.cool_day_high = band->high;
}

void set_air(const Bander& band, Summary& s) {
  s.share_3_days_above_55 = band([](const RunHistory& t) { return t.share_3_days; }, share_kind);
  s.lowest_oxygen_day = band([](const RunHistory& t) { return t.lowest_oxygen_day; }, days_kind);
  s.days_any_below_5_oxygen = band([](const RunHistory& t) { return t.days_any_below_5; }, days_kind);
  s.peak_uptake_g_kg_h = band([](const RunHistory& t) { return t.peak_uptake_g_kg_h; }, plain_kind);
}

void set_water(const Bander& band, Summary& s) {
  const auto leached = [](const RunHistory& t) {
    const double salt_kg = t.first_salt_kg + t.balances.salt.in;
    return salt_kg > 0.0 ? t.balances.salt.out / salt_kg : 0.0;
  };
  s.salt_leached_share = band(leached, share_kind);
  s.water_sprinkled_kg = band([](const RunHistory& t) { return t.balances.sprinkled_kg; }, plain_kind);
  s.water_rain_kg = band([](const RunHistory& t) { return t.balances.rain_kg; }, plain_kind);
  s.water_put_on_kg =
      band([](const RunHistory& t) { return t.balances.sprinkled_kg + t.balances.rain_kg; }, plain_kind);
  s.water_evaporated_kg = band([](const RunHistory& t) { return t.balances.evaporated_kg; }, either_way_kind);
  s.water_drained_kg = band([](const RunHistory& t) { return t.balances.drained_kg; }, plain_kind);
  s.water_made_kg = band([](const RunHistory& t) { return t.balances.water_made_kg; }, plain_kind);
}

/// A column of the history and what kind of number it is.
struct Field {
  double HistoryRow::*value;
  Kind kind;
};

constexpr Field fields[] = {{&HistoryRow::mean_c, average_kind},
                            {&HistoryRow::core_c, average_kind},
                            {&HistoryRow::hottest_c, peak_kind},
                            {&HistoryRow::coldest_c, average_kind},
                            {&HistoryRow::lowest_oxygen, oxygen_kind},
                            {&HistoryRow::mean_oxygen, oxygen_kind},
                            {&HistoryRow::mean_moisture_wet, share_kind},
                            {&HistoryRow::dry_mass_kg, plain_kind},
                            {&HistoryRow::height_m, plain_kind},
                            {&HistoryRow::uptake_kg_s, plain_kind},
                            {&HistoryRow::evaporated_kg_day, either_way_kind},
                            {&HistoryRow::drained_kg_day, plain_kind},
                            {&HistoryRow::sprinkled_kg_day, plain_kind},
                            {&HistoryRow::rain_kg_day, plain_kind},
                            {&HistoryRow::water_made_kg_day, plain_kind}};

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

/// In a straight wall what is left goes with the height: one band tells both.
Banded volume_of(const Banded& height_lost, double middle_m3) {
  const double left = 1.0 - height_lost.middle;
  if (!(left > 0.0)) return {middle_m3, middle_m3, middle_m3};
  const auto at = [&](double lost) { return middle_m3 * (1.0 - lost) / left; };
  return in_order(middle_m3, at(height_lost.high), at(height_lost.low));
}

Summary summarise(const Heap& heap, const Ensemble& ensemble) {
  const Bander band{ensemble};
  const RunHistory& line = ensemble.middle;
  const Balances& balances = line.balances;
  Summary s;
  s.peak_temperature_c = band([](const RunHistory& t) { return t.peak_c; }, peak_kind);
  s.peak_day = band([](const RunHistory& t) { return t.peak_day; }, days_kind);
  s.peak_place = place_of(heap, line.peak_cell);
  s.days_above_55_mass_mean = band([](const RunHistory& t) { return t.days_above_55; }, days_kind);
  set_cool_days(ensemble, s);
  s.lowest_oxygen = band([](const RunHistory& t) { return t.lowest_oxygen; }, oxygen_kind);
  s.lowest_oxygen_place = place_of(heap, line.lowest_oxygen_cell);
  s.most_mass_below_5_oxygen = band([](const RunHistory& t) { return t.most_mass_below_5; }, share_kind);
  s.driest_moisture_wet = band([](const RunHistory& t) { return t.driest; }, share_kind);
  s.wettest_moisture_wet = band([](const RunHistory& t) { return t.wettest; }, share_kind);
  s.mean_moisture_end_wet = band([](const RunHistory& t) { return t.moisture_end; }, share_kind);
  s.solids_lost = band([](const RunHistory& t) { return t.solids_lost; }, loss_kind);
  s.degradable_left = band([](const RunHistory& t) { return t.degradable_left; }, share_kind);
  s.height_lost = band([](const RunHistory& t) { return t.height_lost; }, loss_kind);
  s.finished_mass_kg = band([](const RunHistory& t) { return t.finished_kg; }, plain_kind);
  s.finished_volume_m3 = volume_of(s.height_lost, line.finished_m3);
  s.salt_concentration_ratio = band([](const RunHistory& t) { return t.salt_ratio; }, plain_kind);
  set_air(band, s);
  set_water(band, s);
  s.odds = odds_of(ensemble);
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
      const Banded band = band_around(line.*f.value, draft.*f.value, sample, f.kind, ensemble.grid, ensemble.misses);
      result.history_low[r].*f.value = band.low;
      result.history_high[r].*f.value = band.high;
    }
  }
}

void band_months(const Ensemble& ensemble, Result& result) {
  const Bander band{ensemble};
  for (std::size_t m = 0; m < 12; ++m) {
    const auto set = [&](auto months_of, const Kind& kind, double& low, double& high) {
      const Banded one = band([&](const RunHistory& t) { return (t.*months_of)[m]; }, kind);
      low = one.low;
      high = one.high;
    };
    MonthlyMeans& low = result.months_low;
    MonthlyMeans& high = result.months_high;
    set(&RunHistory::evaporated_kg_s, either_way_kind, low.evaporated_kg_s[m], high.evaporated_kg_s[m]);
    set(&RunHistory::drained_kg_s, plain_kind, low.drained_kg_s[m], high.drained_kg_s[m]);
    set(&RunHistory::salt_out_kg_s, plain_kind, low.salt_out_kg_s[m], high.salt_out_kg_s[m]);
  }
}

}  // namespace stillheap::forecast
