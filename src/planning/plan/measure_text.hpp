#pragma once
#include <string>

#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// "What to measure first" as lines of text: the three most useful measurements of the vessel with what they would do
/// to the band and how each is done, and what no measurement reaches. Or why there is none.
[[nodiscard]] std::string measure_text(const VesselPlan& vessel, UnitSystem units);

/// The answer an unknown drives most, "61 % (49 to 70 %) of the spread of solids lost"; empty when it drives none.
[[nodiscard]] std::string strongest_share(const forecast::Sensitivity& all, const forecast::Unknown& one);

}  // namespace stillheap::plan
