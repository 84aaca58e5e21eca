#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Days since filling on which water must be out of the line, first and last of each frosty season within a year.
struct FrostSeason {
  int first_day = 0;
  int last_day = 0;
};

/// Frosty seasons of the weather from the first fill on, over one year; frosts less than 60 days apart are one.
[[nodiscard]] std::vector<FrostSeason> frost_seasons(const site::Site& site, const weather::Series& weather);

/// The dated work of the first fill, in order of date.
[[nodiscard]] std::vector<CalendarEntry> calendar_of(const Plan& plan);

/// Lead times and limits of the calendar, for the reports.
[[nodiscard]] Assumptions calendar_choices(const Plan& plan);

}  // namespace stillheap::plan
