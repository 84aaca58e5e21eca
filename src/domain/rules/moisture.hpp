#pragma once

/// How wet a heap works, as shares of the wet mass. The one home of both limits: alerts, warnings of the
/// forecast, captions of its charts and the water programme read it. Source: Manitoba Agriculture, "Compost Elements"
/// (moisture 40 to 70 %); 40 % also NRAES-54 1992, table 2.1.
namespace stillheap::rules::moisture {

inline constexpr double dry_wet = 0.40;     ///< below, it is too dry to work
inline constexpr double soaked_wet = 0.70;  ///< above, water fills the room that air needs

}  // namespace stillheap::rules::moisture
