#pragma once
#include "core/base/constants.hpp"
#include "core/base/date.hpp"

/// The year of the weather series: 365 days, no leap day; months and days count from 0.
namespace stillheap::weather {

inline constexpr int days_per_year = 365;
inline constexpr int hours_per_year = 24 * days_per_year;
inline constexpr double seconds_per_year = days_per_year * constant::seconds_per_day;
using date::month_days;

/// First day of a month, 0 for January.
[[nodiscard]] constexpr int first_day_of(int month) noexcept {
  int day = 0;
  for (int earlier = 0; earlier < month; ++earlier) day += month_days[static_cast<std::size_t>(earlier)];
  return day;
}

/// Month of a day 0..364.
[[nodiscard]] constexpr int month_of(int day) noexcept {
  int month = 0;
  while (month < 11 && day >= first_day_of(month + 1)) ++month;
  return month;
}

}  // namespace stillheap::weather
