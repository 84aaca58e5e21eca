#pragma once
#include <cmath>

namespace stillheap::physics {

/// Relative humidity of air in balance with the material.
///
///   a = 1 - exp(-A u^B),  u water, kg/kg dry
///
/// Source: form of Henderson 1952. A and B from the balance moistures of wood, 0.12 kg/kg at 65 % and
/// 0.205 kg/kg at 90 % relative humidity (Wood Handbook, from memory). It agrees with 0.60 at 0.15 kg/kg read
/// for shavings, straw and hay (Porcine Health Management 2018) to about 0.15.
struct WaterActivity {
  double value = 1.0;
  double slope = 0.0;  ///< d value / d u
};

inline constexpr double water_activity_a = 23.4;
inline constexpr double water_activity_b = 1.465;

[[nodiscard]] inline WaterActivity water_activity(double water_dry) noexcept {
  constexpr double a = water_activity_a;
  constexpr double b = water_activity_b;
  if (water_dry > 1.0) return {};  // 1 - 7e-11
  if (water_dry <= 0.0) return {0.0, 0.0};
  const double power = std::pow(water_dry, b);
  const double left = std::exp(-a * power);
  return {1.0 - left, left * a * b * power / water_dry};
}

/// The inverse: water, kg/kg dry, at an activity below 1.
[[nodiscard]] inline double water_at_activity(double activity) noexcept {
  return std::pow(-std::log1p(-activity) / water_activity_a, 1.0 / water_activity_b);
}

}  // namespace stillheap::physics
