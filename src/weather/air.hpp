#pragma once

/// Properties of moist air. Small, pure, used by the physics in its inner loop.
namespace stillheap::weather {

/// Saturation vapour pressure over water, Tetens form: 610.8 exp(17.27 T / (T + 237.3)).
/// Source: FAO-56 (Allen et al. 1998) eq. 11. Within 0.12 % of the ASHRAE equation from 40 to 70 degC.
[[nodiscard]] double saturation_pressure_pa(double celsius) noexcept;

/// Its derivative, Pa/K. Source: FAO-56 eq. 13.
[[nodiscard]] double saturation_slope_pa_k(double celsius) noexcept;

/// Latent heat of vaporisation, J/kg: 2.501e6 - 2361 T. Source: Harrison 1963, in FAO-56 annex 3.
[[nodiscard]] double latent_heat_j_kg(double celsius) noexcept;

/// kg of vapour per kg of dry air at a vapour pressure.
[[nodiscard]] double humidity_ratio(double vapour_pa, double pressure_pa) noexcept;

/// Density of moist air, kg/m3, ideal gas mixture.
[[nodiscard]] double moist_air_density_kg_m3(double celsius, double vapour_pa, double pressure_pa) noexcept;

/// Dew point of air at a vapour pressure, degC (inverse of the saturation curve).
[[nodiscard]] double dew_point_c(double vapour_pa) noexcept;

/// Wet bulb temperature, degC, by the psychrometric equation of ASHRAE Fundamentals ch. 1.
[[nodiscard]] double wet_bulb_c(double celsius, double humidity, double pressure_pa);

/// Pressure of the standard atmosphere. Source: US Standard Atmosphere 1976 (troposphere).
[[nodiscard]] double standard_pressure_pa(double elevation_m) noexcept;

}  // namespace stillheap::weather
