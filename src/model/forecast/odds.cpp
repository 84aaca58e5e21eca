#include "model/forecast/odds.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::forecast {
namespace {

constexpr double hot_c = 55.0;        // three days at it: 40 CFR 503 and the trade's hot phase
constexpr double too_hot_c = 70.0;    // from here on what makes heat dies, and the cautions of the hot phase begin
constexpr double enough_mass = 0.25;  // a quarter of the heap, chosen

template <class True>
double share_of(const std::vector<double>& values, True&& is_so) {
  const auto count = std::count_if(values.begin(), values.end(), is_so);
  return static_cast<double>(count) / static_cast<double>(values.size());
}

template <class Of>
std::vector<double> likely(const Ensemble& ensemble, const Kind& kind, Of&& of) {
  return likely_values(of(ensemble.middle), of(ensemble.draft), of_members(ensemble, of), kind, ensemble.grid,
                       ensemble.misses);
}

Odds end_odds(const Ensemble& ensemble, const Banded& day) {
  const std::vector<double> days = likely_cool_days(ensemble);
  const auto inside = [&](double one) { return one >= day.low && one <= day.high; };
  return {Event::heating_ends_between_days, days.empty() ? 0.0 : cool_share(ensemble) * share_of(days, inside), day.low,
          day.high};
}

}  // namespace

std::vector<Odds> odds_of(const Ensemble& ensemble) {
  if (ensemble.members.empty()) return {};
  const auto peaks = likely(ensemble, peak_kind, [](const RunHistory& r) { return r.peak_c; });
  const auto hot = likely(ensemble, share_kind, [](const RunHistory& r) { return r.share_3_days; });
  const auto oxygen = likely(ensemble, oxygen_kind, [](const RunHistory& r) { return r.lowest_oxygen; });
  if (peaks.empty() || hot.empty() || oxygen.empty()) return {};
  std::vector<Odds> odds{
      {Event::reaches_55_c, share_of(peaks, [](double c) { return c >= hot_c; })},
      {Event::quarter_above_55_c_for_3_days, share_of(hot, [](double share) { return share >= enough_mass; })},
      {Event::passes_70_c, share_of(peaks, [](double c) { return c >= too_hot_c; })},
      {Event::never_below_5_percent_oxygen, share_of(oxygen, [](double share) { return share >= low_oxygen; })}};
  if (const auto day = cool_day_band(ensemble)) odds.push_back(end_odds(ensemble, *day));
  return odds;
}

const char* event_id(Event event) noexcept {
  switch (event) {
    case Event::reaches_55_c:
      return "reaches_55_c";
    case Event::quarter_above_55_c_for_3_days:
      return "quarter_above_55_c_for_3_days";
    case Event::passes_70_c:
      return "passes_70_c";
    case Event::never_below_5_percent_oxygen:
      return "never_below_5_percent_oxygen";
    case Event::heating_ends_between_days:
      return "self_heating_ends_between_days";
  }
  return "";
}

int in_ten(const Odds& odds) noexcept { return static_cast<int>(std::lround(10.0 * std::clamp(odds.share, 0.0, 1.0))); }

}  // namespace stillheap::forecast
