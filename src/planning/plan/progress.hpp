#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// A part of a larger piece of work: 0..1 of the part is told as from..to of the whole. Keeps a copy.
[[nodiscard]] Progress part_of(const Progress& whole, double from, double to);

/// Tells progress; false when it asks to stop. An empty function never does.
[[nodiscard]] bool tell(const Progress& progress, double share, const std::string& what);

}  // namespace stillheap::plan
