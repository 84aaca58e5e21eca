#pragma once
#include <algorithm>
#include <cmath>

/// A channel as an upright duct.
namespace stillheap::physics {

/// Pressure fall per length over mean speed, Pa s/m2: 32 mu / d^2 in laminar flow, raised by the ratio of
/// friction factors (Blasius 0.316 Re^-0.25 over 64/Re) where that is larger.
/// Source: Hagen-Poiseuille; Blasius 1913.
[[nodiscard]] inline double duct_resistance_pa_s_m2(double speed_m_s, double diameter_m, double density_kg_m3,
                                                    double viscosity_pa_s) noexcept {
  const double reynolds = density_kg_m3 * std::abs(speed_m_s) * diameter_m / viscosity_pa_s;
  const double laminar = 32.0 * viscosity_pa_s / (diameter_m * diameter_m);
  return laminar * std::max(1.0, 0.316 * std::pow(reynolds, 0.75) / 64.0);
}

/// Entry or exit loss over speed, Pa s/m: K rho |v| / 2, so that loss = value * v.
[[nodiscard]] inline double loss_resistance_pa_s_m(double speed_m_s, double loss, double density_kg_m3) noexcept {
  return 0.5 * loss * density_kg_m3 * std::abs(speed_m_s);
}

/// Nusselt number: 3.66 with Hausen's entry term, or Dittus-Boelter where larger.
/// Source: Incropera & DeWitt, internal flow.
[[nodiscard]] inline double duct_nusselt(double reynolds, double diameter_m, double length_m) noexcept {
  constexpr double prandtl = 0.71;
  const double graetz = diameter_m / length_m * reynolds * prandtl;
  const double laminar = 3.66 + 0.0668 * graetz / (1.0 + 0.04 * std::cbrt(graetz * graetz));
  return reynolds < 2300.0 ? laminar : std::max(laminar, 0.023 * std::pow(reynolds, 0.8) * std::pow(prandtl, 0.4));
}

}  // namespace stillheap::physics
