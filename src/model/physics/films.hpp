#pragma once
#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "model/physics/gas.hpp"

/// Exchange between the outer faces and the weather.
namespace stillheap::physics {

/// Convection on a rough outside face, W/(m2 K): forced plus natural.
///
///   h = 2.537 W R sqrt(p v / A) + 1.31 |dT|^(1/3)
///
/// Symbols: W 0.75, mean of windward 1 and leeward 0.5; R 1.67, rough; p/A perimeter over area of the face
/// [1/m]; v wind [m/s]; dT face less air [K].
/// Source: Walton 1983 (detailed outside convection with the forced part of Sparrow et al. 1979); natural
/// part: ASHRAE, vertical turbulent.
[[nodiscard]] inline double outside_film_w_m2_k(double wind_m_s, double difference_k,
                                                double perimeter_per_area_1_m) noexcept {
  return 2.537 * 0.75 * 1.67 * std::sqrt(std::max(0.0, perimeter_per_area_1_m * wind_m_s)) +
         1.31 * std::cbrt(std::abs(difference_k));
}

/// Radiation to surroundings near air temperature as a film, W/(m2 K): 4 e sigma T^3.
[[nodiscard]] inline double radiation_film_w_m2_k(double air_c, double emissivity) noexcept {
  const double kelvin = air_c + constant::zero_celsius_k;
  return 4.0 * emissivity * constant::stefan_boltzmann_w_m2_k4 * kelvin * kelvin * kelvin;
}

/// Warmth of sun and sky on a face, W/m2, beyond surroundings at air temperature.
///
///   q = a S + e F (L - sigma T^4)
///
/// Symbols: a absorptance; S sun on the face [W/m2]; e emissivity; F weight of the sky: 1 for the top,
/// 0.354 for a wall; L longwave from the sky [W/m2].
/// Source: Walton 1983 (view to the sky 0.5 (1 + cos), split with the air by its root).
[[nodiscard]] inline double sun_and_sky_w_m2(double sun_w_m2, double absorptance, double longwave_w_m2, double air_c,
                                             double emissivity, double sky_weight) noexcept {
  const double kelvin = air_c + constant::zero_celsius_k;
  const double own = constant::stefan_boltzmann_w_m2_k4 * kelvin * kelvin * kelvin * kelvin;
  return absorptance * sun_w_m2 + emissivity * sky_weight * (longwave_w_m2 - own);
}

/// Transfer of vapour through a film, m/s: h / (rho c) Le^(2/3), Le 0.85 for vapour in air.
/// Source: Chilton & Colburn 1934.
[[nodiscard]] inline double vapour_transfer_m_s(double film_w_m2_k, double air_density_kg_m3) noexcept {
  constexpr double inverse_lewis = 1.114;  // 0.85^(-2/3)
  return film_w_m2_k / (air_density_kg_m3 * dry_air_heat_j_kg_k) * inverse_lewis;
}

}  // namespace stillheap::physics
