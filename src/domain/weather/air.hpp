#pragma once

/// Properties of moist air. Small, pure, used by the physics in its inner loop.
namespace stillheap::weather {

/// Saturation vapour pressure over water, Tetens form: 610.8 exp(17.27 T / (T + 237.3)).
/// Source: FAO-56 (Allen et al. 1998) eq. 11. Within 0.12 % of the ASHRAE equation from 40 to 70 degC,
/// within 0.25 % from 0 to 80 degC.
[[nodiscard]] double saturation_pressure_pa(double celsius) noexcept;

/// Its exact derivative, Pa/K. Source: FAO-56 eq. 13, without its rounding of 17.27 x 237.3 to 4098.
[[nodiscard]] double saturation_slope_pa_k(double celsius) noexcept;

/// The same slope over the pressure itself, 1/K.
[[nodiscard]] double saturation_growth_1_k(double celsius) noexcept;

/// Saturation vapour pressure over water from 0 degC up and over ice below, Pa: slower and finer than the
/// Tetens form, for use outside inner loops. Valid from -100 to 200 degC, within 0.03 % of ASHRAE's table.
/// Source: Hyland & Wexler 1983, as ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 5 and 6.
[[nodiscard]] double saturation_pressure_fine_pa(double celsius) noexcept;

/// Latent heat of vaporisation, J/kg: 2.501e6 - 2361 T. Source: Harrison 1963, in FAO-56 annex 3.
[[nodiscard]] double latent_heat_j_kg(double celsius) noexcept;

/// kg of vapour per kg of dry air at a vapour pressure (below the total pressure).
[[nodiscard]] double humidity_ratio(double vapour_pa, double pressure_pa) noexcept;

/// Vapour pressure of air of that many kg of vapour per kg of dry air (inverse of humidity_ratio).
[[nodiscard]] double vapour_pressure_pa(double humidity_ratio, double pressure_pa) noexcept;

/// Density of moist air, kg/m3, ideal gas mixture.
[[nodiscard]] double moist_air_density_kg_m3(double celsius, double vapour_pa, double pressure_pa) noexcept;

/// Density of the vapour alone, kg/m3, ideal gas.
[[nodiscard]] double vapour_density_kg_m3(double celsius, double vapour_pa) noexcept;

/// Dew point of air at a vapour pressure, degC (inverse of the Tetens curve; -237.3 for dry air).
[[nodiscard]] double dew_point_c(double vapour_pa) noexcept;

/// Wet bulb temperature, degC, by the psychrometric equation of ASHRAE Fundamentals 2017 ch. 1, eq. 33 and 35.
/// `humidity` is relative, 0..1, over water from 0 degC up and over ice below.
[[nodiscard]] double wet_bulb_c(double celsius, double humidity, double pressure_pa) noexcept;

/// Pressure of the standard atmosphere, Pa. Source: US Standard Atmosphere 1976, troposphere (up to 11 km).
[[nodiscard]] double standard_pressure_pa(double elevation_m) noexcept;

}  // namespace stillheap::weather
