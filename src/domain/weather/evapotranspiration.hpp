#pragma once

/// FAO-56 reference evapotranspiration and the sun terms it needs.
/// Source: R. G. Allen, L. S. Pereira, D. Raes, M. Smith, Crop evapotranspiration, FAO Irrigation and
/// Drainage Paper 56 (1998); equation numbers beside each function's code.
namespace stillheap::weather {

struct EtoDay {
  double low_c = 0.0, high_c = 0.0;
  double vapour_pa = 0.0;  ///< actual vapour pressure
  double wind_2m_m_s = 0.0;
  double sun_j_m2 = 0.0;  ///< global, over the day
  double latitude_rad = 0.0;
  double elevation_m = 0.0;
  int day_of_year = 1;
  double soil_heat_j_m2 = 0.0;  ///< into the soil over the day; small within a day, so 0 unless known
};

/// Share of clear-sky sun assumed where no sun rises and clouds are unknown.
/// Source: FAO-56 p. 75, upper end of "0.4 to 0.6 in humid and subhumid climates" for the night.
inline constexpr double clear_share_unknown = 0.6;

/// Height of the sun's path: declination, rad (eq. 24), for days 1 to 366.
[[nodiscard]] double declination_rad(int day_of_year) noexcept;
/// Half the day's arc, rad (eq. 25); 0 in polar night, pi in polar day.
[[nodiscard]] double sunset_angle_rad(double latitude_rad, int day_of_year) noexcept;
[[nodiscard]] double extraterrestrial_j_m2(double latitude_rad, int day_of_year) noexcept;
[[nodiscard]] double daylight_hours(double latitude_rad, int day_of_year) noexcept;
[[nodiscard]] double sun_from_sunshine_hours_j_m2(double latitude_rad, int day_of_year, double hours) noexcept;
/// Global radiation where only the day's lowest and highest temperature are known, J/m2 a day (eq. 50, inland).
[[nodiscard]] double sun_from_temperatures_j_m2(double low_c, double high_c, double extraterrestrial_j_m2) noexcept;
[[nodiscard]] double clear_sky_j_m2(double extraterrestrial_j_m2, double elevation_m) noexcept;
/// Sun as a share of clear-sky sun, 0..1; `clear_share_unknown` where no sun rises.
[[nodiscard]] double clear_share(double sun_j_m2, double clear_sky_j_m2) noexcept;

[[nodiscard]] double wind_at_2m_m_s(double wind_m_s, double height_m) noexcept;
/// Mean pressure at a height above the sea, Pa, as FAO-56 simplifies it (eq. 7); within 0.5 % of the standard
/// atmosphere. Only for evapotranspiration; everything else uses standard_pressure_pa.
[[nodiscard]] double eto_pressure_pa(double elevation_m) noexcept;
[[nodiscard]] double psychrometric_constant_pa_k(double pressure_pa) noexcept;
/// Actual vapour pressure from the day's extremes, Pa (eq. 17); humidities 0..1.
[[nodiscard]] double vapour_from_extremes_pa(double low_c, double high_c, double humidity_low,
                                             double humidity_high) noexcept;
/// Longwave radiation the grass loses over the day, J/m2 (eq. 39).
[[nodiscard]] double net_longwave_out_j_m2(const EtoDay& day) noexcept;
/// Net radiation of the grass over the day, J/m2 (eq. 38 and 40).
[[nodiscard]] double net_radiation_j_m2(const EtoDay& day) noexcept;
/// Penman-Monteith, m per day (eq. 6); dew (a negative result) counts as 0.
[[nodiscard]] double reference_eto_m_day(const EtoDay& day) noexcept;
/// Hargreaves, m per day, where only temperatures are known.
[[nodiscard]] double hargreaves_eto_m_day(double low_c, double high_c, double extraterrestrial_j_m2) noexcept;

}  // namespace stillheap::weather
