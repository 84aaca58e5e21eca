#pragma once
#include <algorithm>

/// Liquid water above the holding capacity runs down; below it see retention.hpp.
namespace stillheap::physics {

/// Downward flow under gravity, kg/(m2 s).
///
///   q = rho_w K_s ((u - u_h) / (u_s - u_h))^3  for u > u_h, else 0
///
/// Symbols: u water, u_h holding capacity, u_s with all pores full [kg/kg dry]; K_s [m/s].
/// Source: power law of Brooks & Corey 1964 between holding capacity and saturation; exponent 3 chosen.
[[nodiscard]] inline double drainage_kg_m2_s(double water_dry, double holding, double saturated,
                                             double saturated_conductivity_m_s) noexcept {
  if (water_dry <= holding) return 0.0;
  const double share = std::min(1.0, (water_dry - holding) / std::max(saturated - holding, 1e-3));
  return 1000.0 * saturated_conductivity_m_s * share * share * share;
}

/// Drainable share s = (u - u_h) / (u_s - u_h) that is left when a cell drains over a step, the flow taken at the
/// step's end: s + b s^3 = s_0 with b = dt rho_w K_s / ((u_s - u_h) m/A). Pores hold no more than s = 1: the rest
/// runs on at once. Newton from above: the left side is convex, so it comes down to the root and never past it.
[[nodiscard]] inline double drainable_share_left(double share, double b) noexcept {
  if (share <= 0.0) return share;
  double left = std::min(share, 1.0);
  if (left + b * left * left * left <= share) return left;
  for (int round = 0; round < 60; ++round) {
    const double next = left - (left + b * left * left * left - share) / (1.0 + 3.0 * b * left * left);
    if (left - next <= 1e-14 * share) return next;
    left = next;
  }
  return left;
}

}  // namespace stillheap::physics
