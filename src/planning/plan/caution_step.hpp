#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Whether a vessel is so much taller than wide that it can tip.
[[nodiscard]] bool is_slender(const vessel::Design& design) noexcept;

/// The cautions that this plan's numbers call for: the worst of all vessels for each condition.
[[nodiscard]] std::vector<Caution> cautions_of(const Plan& plan);

}  // namespace stillheap::plan
