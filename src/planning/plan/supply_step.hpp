#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// The yard plan the site file asks for, from the forecast of its vessel; nothing when it asks for none, or when there
/// is neither a forecast nor the site file's own yield and time to harvest.
[[nodiscard]] std::optional<supply::Outcome> supply_of(const Plan& plan);

/// What the yard plan is asked, in half-months; as supply_of.
[[nodiscard]] std::optional<supply::Wish> supply_wish(const Plan& plan);

/// A yard plan that is short of what is wanted, with every way out.
[[nodiscard]] Warnings supply_warnings(const Plan& plan);

/// Yield, time and work that the yard plan counts with, for the reports.
[[nodiscard]] Assumptions supply_choices(const Plan& plan);

}  // namespace stillheap::plan
