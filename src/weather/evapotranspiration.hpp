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
};

[[nodiscard]] double extraterrestrial_j_m2(double latitude_rad, int day_of_year) noexcept;
[[nodiscard]] double daylight_hours(double latitude_rad, int day_of_year) noexcept;
[[nodiscard]] double sun_from_sunshine_hours_j_m2(double latitude_rad, int day_of_year, double hours) noexcept;
[[nodiscard]] double clear_sky_j_m2(double extraterrestrial_j_m2, double elevation_m) noexcept;
[[nodiscard]] double wind_at_2m_m_s(double wind_m_s, double height_m) noexcept;
/// Penman-Monteith, m per day.
[[nodiscard]] double reference_eto_m_day(const EtoDay& day) noexcept;
/// Hargreaves, m per day, where only temperatures are known.
[[nodiscard]] double hargreaves_eto_m_day(double low_c, double high_c, double extraterrestrial_j_m2) noexcept;

}  // namespace stillheap::weather
