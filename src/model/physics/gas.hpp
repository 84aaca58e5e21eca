#pragma once
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"

/// The heap's gas: moist air. Oxygen is carried as kg per kg of dry air; carbon dioxide takes its place
/// mole for mole, so the dry gas keeps its amount.
namespace stillheap::physics {

inline constexpr double dry_air_heat_j_kg_k = 1006.0;    // Incropera & DeWitt, air at 300 K
inline constexpr double air_conductivity_w_m_k = 0.026;  // Incropera & DeWitt, air at 300 K
inline constexpr double water_heat_j_kg_k = 4186.0;      // ASHRAE Fundamentals ch. 1
inline constexpr double latent_heat_0c_j_kg = 2.501e6;   // Harrison 1963, in FAO-56 annex 3
// Chosen so that vapour less liquid enthalpy equals Harrison's 2.501e6 - 2361 T at every T.
inline constexpr double vapour_heat_j_kg_k = water_heat_j_kg_k - 2361.0;

// 20.946 % by volume of dry air (ISO 2533), as kg per kg of dry air.
inline constexpr double oxygen_outside =
    0.20946 * constant::molar_mass_oxygen_kg_mol / constant::molar_mass_dry_air_kg_mol;

/// Enthalpy of vapour above liquid water at 0 degC, J/kg.
[[nodiscard]] inline double vapour_enthalpy_j_kg(double celsius) noexcept {
  return latent_heat_0c_j_kg + vapour_heat_j_kg_k * celsius;
}

/// Share by volume of the dry gas from kg per kg of dry air.
[[nodiscard]] inline double oxygen_share(double oxygen_ratio) noexcept {
  return oxygen_ratio * constant::molar_mass_dry_air_kg_mol / constant::molar_mass_oxygen_kg_mol;
}

/// Density of the dry air in moist air, kg/m3 (ideal gas at its partial pressure).
[[nodiscard]] inline double dry_air_density_kg_m3(double celsius, double vapour_pa, double pressure_pa) noexcept {
  return (pressure_pa - vapour_pa) * constant::molar_mass_dry_air_kg_mol /
         (constant::gas_constant_j_mol_k * (celsius + constant::zero_celsius_k));
}

/// Viscosity of air, Pa s: 1.716e-5 (T/273.15)^1.5 (273.15 + 110.4) / (T + 110.4). Source: Sutherland's law,
/// constants as in the US Standard Atmosphere 1976.
[[nodiscard]] inline double air_viscosity_pa_s(double celsius) noexcept {
  const double kelvin = celsius + constant::zero_celsius_k;
  const double ratio = kelvin / constant::zero_celsius_k;
  return 1.716e-5 * ratio * std::sqrt(ratio) * (constant::zero_celsius_k + 110.4) / (kelvin + 110.4);
}

/// Oxygen in air, m2/s: 0.178e-4 (T/273.15)^1.75. Source: Currie 1960, from memory.
[[nodiscard]] inline double oxygen_diffusivity_m2_s(double celsius) noexcept {
  return 0.178e-4 * std::pow((celsius + constant::zero_celsius_k) / constant::zero_celsius_k, 1.75);
}

/// Water vapour in air, m2/s: 0.212e-4 (T/273.15)^1.75. Source: Campbell & Norman 1998, from memory.
[[nodiscard]] inline double vapour_diffusivity_m2_s(double celsius) noexcept {
  return 0.212e-4 * std::pow((celsius + constant::zero_celsius_k) / constant::zero_celsius_k, 1.75);
}

// Both at 300 K, for the still air of a channel, where the little that creeps does not ask for more.
inline constexpr double still_oxygen_m2_s = 2.1e-5;
inline constexpr double still_vapour_m2_s = 2.5e-5;

/// Share of the free diffusivity left inside the heap: free air space squared.
/// Source: Papendick & Campbell 1981, in the Cornell compost pages.
[[nodiscard]] inline double pore_diffusion_factor(double free_air_space) noexcept {
  return free_air_space * free_air_space;
}

}  // namespace stillheap::physics
