#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// The cautions that this plan's numbers call for: the worst of all vessels for each condition.
[[nodiscard]] std::vector<Caution> cautions_of(const Plan& plan);

}  // namespace stillheap::plan
