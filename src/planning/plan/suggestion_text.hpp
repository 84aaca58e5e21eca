#pragma once
#include <string>

#include "core/quantity/quantity.hpp"
#include "domain/vessel/air_path.hpp"

namespace stillheap::plan {

/// A pattern of channels in words and as it is typed into [vessel.channels] of the site file: "five on one ring; type
/// in: count = 5, radius = \"12.5 in\", first_angle = \"0 deg\"". One ring as a ring; a second one, and every grid, as
/// places from the middle. Lengths to four digits, which moves no channel by more than a pipe's wall.
[[nodiscard]] std::string suggestion_text(const vessel::Suggestion& suggestion, UnitSystem units);

}  // namespace stillheap::plan
