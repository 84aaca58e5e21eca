#include "domain/weather/evapotranspiration.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"

namespace stillheap::weather {
namespace {

using constant::pi;

// FAO-56 writes its equations in MJ, kPa and mm; these bring them to SI.
constexpr double joule_per_megajoule = 1e6;
constexpr double pascal_per_kilopascal = 1e3;
constexpr double metre_per_millimetre = 1e-3;
constexpr double evaporated_mm_per_mj_m2 = 0.408;  // eq. 20

constexpr double solar_constant_j_m2_min = 0.0820e6;  // eq. 21
constexpr double minutes_per_day = 1440.0;
constexpr double stefan_boltzmann_j_m2_k4_day = 4.903e-3;  // eq. 39, rounded as printed
constexpr double zero_celsius_rounded_k = 273.16;          // eq. 39, as printed
constexpr double grass_albedo = 0.23;                      // eq. 38

/// Inverse relative distance from earth to sun (eq. 23).
double closeness(int day_of_year) noexcept { return 1.0 + 0.033 * std::cos(2.0 * pi / 365.0 * day_of_year); }

double fourth_power(double value) noexcept { return value * value * value * value; }

}  // namespace

double declination_rad(int day_of_year) noexcept { return 0.409 * std::sin(2.0 * pi / 365.0 * day_of_year - 1.39); }

double sunset_angle_rad(double latitude_rad, int day_of_year) noexcept {
  const double cosine = -std::tan(latitude_rad) * std::tan(declination_rad(day_of_year));
  return std::acos(std::clamp(cosine, -1.0, 1.0));
}

double extraterrestrial_j_m2(double latitude_rad, int day_of_year) noexcept {
  const double declination = declination_rad(day_of_year);
  const double sunset = sunset_angle_rad(latitude_rad, day_of_year);
  const double path = sunset * std::sin(latitude_rad) * std::sin(declination) +
                      std::cos(latitude_rad) * std::cos(declination) * std::sin(sunset);
  return std::max(0.0, minutes_per_day / pi * solar_constant_j_m2_min * closeness(day_of_year) * path);  // eq. 21
}

double daylight_hours(double latitude_rad, int day_of_year) noexcept {
  return 24.0 / pi * sunset_angle_rad(latitude_rad, day_of_year);  // eq. 34
}

double sun_from_sunshine_hours_j_m2(double latitude_rad, int day_of_year, double hours) noexcept {
  const double longest = daylight_hours(latitude_rad, day_of_year);
  if (longest <= 0.0) return 0.0;
  const double share = std::clamp(hours / longest, 0.0, 1.0);
  return (0.25 + 0.50 * share) * extraterrestrial_j_m2(latitude_rad, day_of_year);  // eq. 35
}

double sun_from_temperatures_j_m2(double low_c, double high_c, double extraterrestrial_j_m2) noexcept {
  const double share = std::min(0.16 * std::sqrt(std::max(high_c - low_c, 0.0)), 0.75);
  return share * extraterrestrial_j_m2;
}

double clear_sky_j_m2(double extraterrestrial_j_m2, double elevation_m) noexcept {
  return (0.75 + 2e-5 * elevation_m) * extraterrestrial_j_m2;  // eq. 37
}

double clear_share(double sun_j_m2, double clear_sky_j_m2) noexcept {
  if (clear_sky_j_m2 <= 0.0) return clear_share_unknown;
  return std::clamp(sun_j_m2 / clear_sky_j_m2, 0.0, 1.0);
}

double wind_at_2m_m_s(double wind_m_s, double height_m) noexcept {
  if (height_m == 2.0) return wind_m_s;                       // eq. 47 gives 1.0002 there by its rounding
  return wind_m_s * 4.87 / std::log(67.8 * height_m - 5.42);  // eq. 47
}

double eto_pressure_pa(double elevation_m) noexcept {
  return 101.3 * pascal_per_kilopascal * std::pow((293.0 - 0.0065 * elevation_m) / 293.0, 5.26);
}

double psychrometric_constant_pa_k(double pressure_pa) noexcept { return 0.665e-3 * pressure_pa; }  // eq. 8

double vapour_from_extremes_pa(double low_c, double high_c, double humidity_low, double humidity_high) noexcept {
  return 0.5 * (saturation_pressure_pa(low_c) * humidity_high + saturation_pressure_pa(high_c) * humidity_low);
}

double net_longwave_out_j_m2(const EtoDay& day) noexcept {
  const double clear_j_m2 = clear_sky_j_m2(extraterrestrial_j_m2(day.latitude_rad, day.day_of_year), day.elevation_m);
  const double share = clear_share(day.sun_j_m2, clear_j_m2);
  // FAO-56 leaves the cloud term negative under a black sky; the ASCE standardised equation (ASCE-EWRI 2005,
  // eq. 18) keeps the same term at 0.05 or more.
  const double clouds = std::max(1.35 * share - 0.35, 0.05);
  const double air = 0.34 - 0.14 * std::sqrt(std::max(day.vapour_pa, 0.0) / pascal_per_kilopascal);
  const double black =
      0.5 * (fourth_power(day.low_c + zero_celsius_rounded_k) + fourth_power(day.high_c + zero_celsius_rounded_k));
  return stefan_boltzmann_j_m2_k4_day * black * air * clouds;
}

double net_radiation_j_m2(const EtoDay& day) noexcept {
  return (1.0 - grass_albedo) * day.sun_j_m2 - net_longwave_out_j_m2(day);
}

double reference_eto_m_day(const EtoDay& day) noexcept {
  const double mean_c = 0.5 * (day.low_c + day.high_c);
  const double slope = saturation_slope_pa_k(mean_c);
  const double gamma = psychrometric_constant_pa_k(eto_pressure_pa(day.elevation_m));
  const double saturated_pa = 0.5 * (saturation_pressure_pa(day.low_c) + saturation_pressure_pa(day.high_c));
  const double radiation_mj = (net_radiation_j_m2(day) - day.soil_heat_j_m2) / joule_per_megajoule;
  const double lack_kpa = (saturated_pa - day.vapour_pa) / pascal_per_kilopascal;
  const double drying = 900.0 / (mean_c + 273.0) * day.wind_2m_m_s * lack_kpa;
  const double eto_mm = (evaporated_mm_per_mj_m2 * slope * radiation_mj + gamma * drying) /
                        (slope + gamma * (1.0 + 0.34 * day.wind_2m_m_s));
  return std::max(0.0, eto_mm) * metre_per_millimetre;
}

double hargreaves_eto_m_day(double low_c, double high_c, double extraterrestrial_j_m2) noexcept {
  const double sun_mm = evaporated_mm_per_mj_m2 * extraterrestrial_j_m2 / joule_per_megajoule;
  const double mean_c = 0.5 * (low_c + high_c);
  const double eto_mm = 0.0023 * (mean_c + 17.8) * std::sqrt(std::max(high_c - low_c, 0.0)) * sun_mm;  // eq. 52
  return std::max(0.0, eto_mm) * metre_per_millimetre;
}

}  // namespace stillheap::weather
