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

AirOfYear air_of(const weather::Series& series) {
  AirOfYear air_c{};
  for (std::size_t day = 0; day < air_c.size(); ++day) {
    double sum_c = 0.0;
    for (int hour = 0; hour < 24; ++hour) {
      sum_c += weather::at(series, static_cast<double>(day) * 86400.0 + hour * 3600.0).air_c;
    }
    air_c[day] = sum_c / 24.0;
  }
  return air_c;
}

double mean_c(const AirOfYear& air_c, date::Day day) {
  return air_c[static_cast<std::size_t>(std::min(365, date::day_of_year(day)) - 1)];
}

}  // namespace

Setting::Setting(const site::Site* the_site) : site(the_site) {
  if (site == nullptr) return;
  try {
    air_c = air_of(plan::weather_of(*site));
  } catch (const InputError&) {
    air_c.reset();
  }
}

insight::Outside outside_of(const Setting& setting, record::Instant filled_at, record::Instant at) {
  if (!setting.air_c || at < filled_at) return {};
  const AirOfYear& air_c = *setting.air_c;
  insight::Outside outside;
  const date::Day first = std::chrono::floor<std::chrono::days>(filled_at);
  const date::Day today = std::chrono::floor<std::chrono::days>(at);
  double heap_c = mean_c(air_c, first);
  for (date::Day day = first; day <= today; day += std::chrono::days{1}) {
    heap_c += (mean_c(air_c, day) - heap_c) * (1.0 - std::exp(-1.0 / lag_days));
    outside.twin.push_back({static_cast<double>((day - first).count()), heap_c, heap_c});
  }
  outside.today_c = mean_c(air_c, today);
  outside.coldest_ahead_c = outside.today_c;
  for (int ahead = 1; ahead <= static_cast<int>(rules::worms::frost_free_days); ++ahead) {
    outside.coldest_ahead_c = std::min(*outside.coldest_ahead_c, mean_c(air_c, today + std::chrono::days{ahead}));
  }
  return outside;
}

}  // namespace stillheap::yard
