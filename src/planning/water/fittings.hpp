#pragma once
#include "planning/water/line.hpp"

/// What stands between the tap and the line, and what the line needs before frost.
namespace stillheap::water {

/// Share of the smallest opening that the filter's openings may have. Source: one eighth for trickle outlets,
/// Agriculture Victoria note AG0136 (1995, updated 2009).
inline constexpr double filter_share = 1.0 / 8.0;

struct Screen {
  int mesh = 0;  ///< openings an inch
  double opening_m = 0.0;
};

/// The coarsest screen whose openings are fine enough for holes of this size; the finest of the table when none is.
/// Source: openings of ASTM E11 test sieves, no. 18 to 270 (from memory, ends checked against a public table).
[[nodiscard]] Screen screen_for(double hole_diameter_m) noexcept;

/// Water that stands in the line and freezes.
[[nodiscard]] double held_water_m3(const Line& line) noexcept;

/// Friction along the line by rule: all of an arm's flow, by Hazen and Williams, times Christiansen's factor.
[[nodiscard]] double ruled_loss_pa(const Line& line, const LineFlow& flow, double roughness = 140.0) noexcept;

/// Greatest less least hole flow, over the greatest (Keller and Karmeli 1975, from memory).
[[nodiscard]] double flow_variation(const LineFlow& flow) noexcept;

}  // namespace stillheap::water
