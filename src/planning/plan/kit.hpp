#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// What is bought beside the cut parts: fittings of the supply, bath and pails, what holds the forms, screws, tools
/// that no shed can be counted on to have, protection for everybody who fills, thermometer and worms. Once for the
/// yard, or for one filling day, or for each vessel, as it is used. None has a price in the site file.
[[nodiscard]] std::vector<PricedPiece> kit_of(const Plan& plan);

/// How much of the small parts is counted, for the reports.
[[nodiscard]] std::string kit_choices(UnitSystem units);

}  // namespace stillheap::plan
