#pragma once
#include <string>
#include <vector>

#include "planning/fill/fill.hpp"

namespace stillheap::fill {

/// The order of work of a fill, in sentences with amounts in the wanted units. `fill` holds everything but the
/// steps; `bath` and `practice` are those it was planned with.
[[nodiscard]] std::vector<std::string> steps_of(const vessel::Design& design, const FillPlan& fill,
                                                const material::Bath& bath, const Practice& practice, UnitSystem units);

/// What a full pail weighs beside what one person may lift over the brim, and what to do where that is more.
[[nodiscard]] std::string weight_words(const FillPlan& fill, UnitSystem units);

}  // namespace stillheap::fill
