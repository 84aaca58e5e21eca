#pragma once
#include <algorithm>
#include <cmath>

/// How tightly the material holds its water below the holding capacity, and how it creeps there.
///
///   suction        h = h_h s^-b
///   conductivity   K ~ s^(2b+3), so the diffusivity K dh/du gives D = D_h s^(b+2)
///   at rest        ds/dz = -s^(1+b) / (b h_h): drier upwards by what the suction has to lift
///
/// Symbols: s water over holding capacity [-], at most 1; h suction head, h_h at holding capacity [m]; b exponent [-];
/// D_h diffusivity at holding capacity [m2/s]; z up [m].
/// Source: Campbell 1974, Soil Science 117, 311.
namespace stillheap::physics {

[[nodiscard]] inline double suction_m(double share, double exponent, double holding_suction_m) noexcept {
  return holding_suction_m * std::pow(std::clamp(share, 1e-3, 1.0), -exponent);
}

[[nodiscard]] inline double capillary_diffusivity_m2_s(double share, double exponent, double at_holding_m2_s) noexcept {
  return at_holding_m2_s * std::pow(std::clamp(share, 0.0, 1.0), exponent + 2.0);
}

/// What the water share falls by per metre of height when nothing moves, 1/m.
[[nodiscard]] inline double share_lost_upwards_1_m(double share, double exponent, double holding_suction_m) noexcept {
  return std::pow(std::clamp(share, 0.0, 1.0), 1.0 + exponent) / (exponent * holding_suction_m);
}

}  // namespace stillheap::physics
