#pragma once
#include <vector>

#include "model/forecast/band.hpp"

namespace stillheap::forecast {

/// The odds of everything a maker decides by, from the same likely values that make the bands. Without members none.
/// The end of self-heating counts members that end within their band of days; one that does not end counts against it.
[[nodiscard]] std::vector<Odds> odds_of(const Ensemble& ensemble);

/// The word that files carry for an event: "quarter_above_55_c_for_3_days".
[[nodiscard]] const char* event_id(Event event) noexcept;

/// The share in tenths, as people say odds: 0 stands for less than one in ten, 10 for more than nine.
[[nodiscard]] int in_ten(const Odds& odds) noexcept;

}  // namespace stillheap::forecast
