#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Everything in the plan that lies outside a published range, a limit of the site file or common practice.
[[nodiscard]] Warnings warnings_of(const Plan& plan);

}  // namespace stillheap::plan
