#include "yard/state/outside.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "domain/rules/worms.hpp"
#include "planning/plan/forecast_step.hpp"

namespace stillheap::yard {
namespace {

constexpr double lag_days = 7.0;

/// Daily mean of the outside air on a day of the calendar.
double mean_c(const weather::Series& series, date::Day day) {
  const double first_s = (std::min(365, date::day_of_year(day)) - 1) * 86400.0;
  double sum_c = 0.0;
  for (int hour = 0; hour < 24; ++hour) sum_c += weather::at(series, first_s + hour * 3600.0).air_c;
  return sum_c / 24.0;
}

}  // namespace

insight::Outside outside_of(const site::Site* site, record::Instant filled_at, record::Instant at) {
  if (site == nullptr || at < filled_at) return {};
  weather::Series series;
  try {
    series = plan::weather_of(*site);
  } catch (const InputError&) {
    return {};  // `check` tells what is wrong with it
  }
  insight::Outside outside;
  const date::Day first = std::chrono::floor<std::chrono::days>(filled_at);
  const date::Day today = std::chrono::floor<std::chrono::days>(at);
  double heap_c = mean_c(series, first);
  for (date::Day day = first; day <= today; day += std::chrono::days{1}) {
    heap_c += (mean_c(series, day) - heap_c) * (1.0 - std::exp(-1.0 / lag_days));
    outside.twin.push_back({static_cast<double>((day - first).count()), heap_c, heap_c});
  }
  outside.today_c = mean_c(series, today);
  outside.coldest_ahead_c = outside.today_c;
  for (int ahead = 1; ahead <= static_cast<int>(rules::worms::frost_free_days); ++ahead) {
    outside.coldest_ahead_c = std::min(*outside.coldest_ahead_c, mean_c(series, today + std::chrono::days{ahead}));
  }
  return outside;
}

}  // namespace stillheap::yard
