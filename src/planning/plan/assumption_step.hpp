#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Every default, choice and simplification behind the plan: the site's defaults (typical values of feedstocks are
/// among them), the weather's, the plan's own and the model's. Each once, in that order.
[[nodiscard]] Assumptions assumptions_of(const Plan& plan);

}  // namespace stillheap::plan
