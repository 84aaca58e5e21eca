#pragma once

/// How wet a heap works, as shares of the wet mass. The one home of both limits: alerts and water programme read it.
/// Source: Manitoba Agriculture, "Compost Elements" (moisture 40 to 70 %).
namespace stillheap::rules::moisture {

inline constexpr double dry_wet = 0.40;     ///< below, it is too dry to work
inline constexpr double soaked_wet = 0.70;  ///< above, water fills the room that air needs

}  // namespace stillheap::rules::moisture
