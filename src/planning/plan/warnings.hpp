#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// What needs no forecast: stock, blend, vessel, loads, water line, days asked for. `check`, `sheets` and the plan tell
/// this one list. Reads vessels, cutting and site of the plan.
[[nodiscard]] Warnings findings_without_forecast(const Plan& plan);

/// Everything in the plan that lies outside a published range, a limit of the site file or common practice.
[[nodiscard]] Warnings warnings_of(const Plan& plan);

/// "2 warnings:" and a line each, or "No warnings."
[[nodiscard]] std::string warning_lines(const Warnings& warnings);

}  // namespace stillheap::plan
