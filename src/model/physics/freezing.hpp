#pragma once
#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/water_activity.hpp"

/// Ice beside the water that solids and salts keep liquid.
namespace stillheap::physics {

inline constexpr double ice_heat_j_kg_k = 2100.0;    // at 0 degC; CRC Handbook, from memory
inline constexpr double fusion_heat_j_kg = 333.6e3;  // 6.01 kJ/mol at 0 degC; CRC Handbook, from memory
/// Heat of fusion gained by a kelvin of warmth, J/(kg K).
inline constexpr double fusion_growth_j_kg_k = water_heat_j_kg_k - ice_heat_j_kg_k;

/// Enthalpy of ice above liquid water at 0 degC, J/kg.
[[nodiscard]] inline double ice_enthalpy_j_kg(double celsius) noexcept {
  return ice_heat_j_kg_k * celsius - fusion_heat_j_kg;
}

/// Freezing point of water with salts in it, K below 0 degC per kg of salt a kg of water: osmotic pressure of 0.36 atm
/// and 0.64 g/l a dS/m, and 12.06 atm a kelvin. Source: USDA Agriculture Handbook 60 (1954), from memory.
inline constexpr double salt_lowers_k = 0.36 / 12.06 / 0.64e-3;
/// Salt that even soft water has, kg/kg: it freezes over a few hundredths of a kelvin, not all at once. Chosen.
inline constexpr double least_salt_in_water = 1e-4;

/// Temperature at which ice is in balance with water that is held, and its slope.
struct Balance {
  double celsius = 0.0;
  double slope_k_kg_j = 0.0;  ///< by the work
};

/// Temperature at which ice is in balance with water whose activity is a: at which freezing gives as much as it takes
/// to free the water, q = -R T0 / M ln a [J/kg].
///
///   q (T0 + t) = -(L + d t / 2) t,   so   d/2 t^2 + (L + q) t + q T0 = 0
///
/// Symbols: t temperature [degC], T0 273.15 K; L heat of fusion at 0 degC [J/kg], d heat capacity of water less that of
/// ice [J/(kg K)]; M molar mass of water [kg/mol], R gas constant.
/// Source: equality of the chemical potentials of ice and water (Clausius and Clapeyron), L taken half-way, as for
/// unfrozen water in soils: Spaans & Baker 1996, Soil Sci. Soc. Am. J. 60, 13-19, from memory.
[[nodiscard]] inline Balance ice_balance(double work_j_kg) noexcept {
  constexpr double t0 = constant::zero_celsius_k;
  constexpr double d = fusion_growth_j_kg_k;
  const double sum = fusion_heat_j_kg + work_j_kg;
  const double celsius = -2.0 * work_j_kg * t0 / (sum + std::sqrt(sum * sum - 2.0 * d * work_j_kg * t0));
  return {celsius, -(t0 + celsius) / (d * celsius + sum)};
}

/// R T0 / M: what the work q is by the log of an activity, with the other sign.
inline constexpr double work_by_log_j_kg =
    constant::gas_constant_j_mol_k * constant::zero_celsius_k / constant::molar_mass_water_kg_mol;

/// The work q of the log of an activity, J/kg.
[[nodiscard]] inline double freeing_work_j_kg(double log_activity) noexcept { return -work_by_log_j_kg * log_activity; }

/// The activity at which water is in balance with ice.
struct IceActivity {
  double value = 1.0;
  double slope_1_k = 0.0;  ///< by temperature
};

/// The inverse of ice_balance. Vapour over ice is so much of that over water as cold.
[[nodiscard]] inline IceActivity ice_activity(double celsius) noexcept {
  const double kelvin = celsius + constant::zero_celsius_k;
  const double work = -(fusion_heat_j_kg + 0.5 * fusion_growth_j_kg_k * celsius) * celsius / kelvin;
  const double slope = -(fusion_heat_j_kg + fusion_growth_j_kg_k * celsius + work) / kelvin;
  const double value = std::exp(-work / work_by_log_j_kg);
  return {value, -value * slope / work_by_log_j_kg};
}

/// Where ice and water are in balance, with its slope by the water.
struct Freezing {
  double celsius = 0.0;
  double slope_k = 0.0;  ///< d celsius / d u; positive: the drier, the colder
};

/// Temperature at which ice begins to form in the heap, or to which it has cooled until so much is liquid.
///
///   q = -R T0 / M ln a_m(u) + L K s / (T0 u)
///
/// Symbols: u liquid water, s salt [kg/kg dry]; a_m water activity of the material (its sorption isotherm), K lowering
/// by salt [K]; the others above. What solids and salt hold adds up, as potentials do.
[[nodiscard]] inline Freezing freezing(double liquid_dry, double salt_dry) noexcept {
  const WaterActivity held = water_activity(liquid_dry);
  const double salty_j_kg = fusion_heat_j_kg / constant::zero_celsius_k * salt_lowers_k * salt_dry / liquid_dry;
  const Balance balance = ice_balance(freeing_work_j_kg(std::log(held.value)) + salty_j_kg);
  const double work_slope = freeing_work_j_kg(held.slope / held.value) - salty_j_kg / liquid_dry;
  return {balance.celsius, balance.slope_k_kg_j * work_slope};
}

/// Salt alone keeps so much liquid, solids alone so much; where both are alike, both together keep a sixth more.
[[nodiscard]] inline double liquid_guess(double celsius, double salt_dry) noexcept {
  const double by_salt = salt_lowers_k * salt_dry / -celsius;
  const double by_solids = water_at_activity(ice_activity(celsius).value);
  const double salt_2 = by_salt * by_salt, solids_2 = by_solids * by_solids;
  return std::sqrt(std::sqrt(salt_2 * salt_2 + solids_2 * solids_2));
}

/// Liquid water, kg/kg dry, with the slope of the temperature it freezes at; 0 where there is no ice.
struct Liquid {
  double dry = 0.0;
  double slope_k = 0.0;
};

/// Water that stays liquid beside ice at `celsius` below 0: the inverse of freezing(). `most_dry` if none freezes. The
/// search begins at `near_dry` if that is more than 0.
[[nodiscard]] inline Liquid liquid_beside_ice(double celsius, double salt_dry, double most_dry,
                                              double near_dry = 0.0) noexcept {
  if (celsius >= freezing(most_dry, salt_dry).celsius) return {most_dry, 0.0};
  double low = 0.0, high = most_dry;
  double liquid = std::min(near_dry > 0.0 ? near_dry : liquid_guess(celsius, salt_dry), 0.999 * most_dry);
  for (int round = 0; round < 60; ++round) {
    const Freezing at = freezing(liquid, salt_dry);
    const double miss = at.celsius - celsius;
    (miss > 0.0 ? high : low) = liquid;
    const double newton = liquid - miss / at.slope_k;
    // The next would move by the square of it.
    if (std::abs(newton - liquid) < 1e-6 * liquid) return {newton, at.slope_k};
    liquid = newton > low && newton < high ? newton : 0.5 * (low + high);
  }
  return {liquid, freezing(liquid, salt_dry).slope_k};
}

}  // namespace stillheap::physics
