#pragma once
#include <string>

#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// "7 in 10": the odds as people say them; "fewer than 1 in 20" and "more than 19 in 20" at the ends.
[[nodiscard]] std::string odds_figure(const forecast::Odds& odds);

/// What the odds are of, without a number: "hotter than 55 degC somewhere".
[[nodiscard]] std::string odds_event(const forecast::Odds& odds, UnitSystem units);

/// Both: "7 in 10 that a quarter of the heap stays above 55 degC for three days".
[[nodiscard]] std::string odds_text(const forecast::Odds& odds, UnitSystem units);

}  // namespace stillheap::plan
