#include <gtest/gtest.h>

#include "check.hpp"
#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/days.hpp"
#include "domain/weather/evapotranspiration.hpp"

namespace stillheap {
namespace {

using outside::expect;
using namespace weather;

double rad(double degrees) { return degrees * constant::pi / 180.0; }

TEST(Weather, W01DayInJuly) {
  EtoDay day;
  day.low_c = 12.3;
  day.high_c = 21.5;
  day.vapour_pa = vapour_from_extremes_pa(12.3, 21.5, 0.63, 0.84);
  day.wind_2m_m_s = wind_at_2m_m_s(2.78, 10.0);
  day.latitude_rad = rad(50.80);
  day.elevation_m = 100.0;
  day.day_of_year = 187;
  day.sun_j_m2 = sun_from_sunshine_hours_j_m2(day.latitude_rad, 187, 9.25);
  const double above = extraterrestrial_j_m2(day.latitude_rad, 187);
  const double saturated = 0.5 * (saturation_pressure_pa(12.3) + saturation_pressure_pa(21.5));
  expect("W01", "eto_mm_d", reference_eto_m_day(day) * 1000.0);
  expect("W01", "rn_mj_m2", net_radiation_j_m2(day) * 1e-6);
  expect("W01", "ra_mj_m2", above * 1e-6);
  expect("W01", "rso_mj_m2", clear_sky_j_m2(above, 100.0) * 1e-6);
  expect("W01", "rs_mj_m2", day.sun_j_m2 * 1e-6);
  expect("W01", "rnl_mj_m2", net_longwave_out_j_m2(day) * 1e-6);
  expect("W01", "u2_m_s", day.wind_2m_m_s);
  expect("W01", "ea_kpa", day.vapour_pa / 1000.0);
  expect("W01", "vpd_kpa", (saturated - day.vapour_pa) / 1000.0);
  expect("W01", "slope_kpa_k", saturation_slope_pa_k(16.9) / 1000.0);
  expect("W01", "gamma_kpa_k", psychrometric_constant_pa_k(eto_pressure_pa(100.0)) / 1000.0);
}

TEST(Weather, W03Pressure) {
  expect("W03", "p_1800_kpa", eto_pressure_pa(1800.0) / 1000.0);
  expect("W03", "gamma_1800_kpa_k", psychrometric_constant_pa_k(eto_pressure_pa(1800.0)) / 1000.0);
  expect("W03", "p_1200_kpa", eto_pressure_pa(1200.0) / 1000.0);
}

TEST(Weather, W06SunAboveTheAir) { expect("W06", "ra_mj_m2", extraterrestrial_j_m2(rad(-20.0), 246) * 1e-6); }

TEST(Weather, W07Hargreaves) {
  const double above = extraterrestrial_j_m2(rad(45.72), 196);
  expect("W07", "ra_mm_d", above * 0.408e-6);
  expect("W07", "eto_mm_d", hargreaves_eto_m_day(14.8, 26.6, above) * 1000.0);
}

TEST(Weather, W26AprilInBangkok) {
  EtoDay day;
  day.low_c = 25.6;
  day.high_c = 34.8;
  day.vapour_pa = 2850.0;
  day.wind_2m_m_s = 2.0;
  day.latitude_rad = rad(13.73);
  day.elevation_m = 2.0;
  day.day_of_year = 105;
  day.soil_heat_j_m2 = 0.14e6;
  day.sun_j_m2 = sun_from_sunshine_hours_j_m2(day.latitude_rad, 105, 8.5);
  const double above = extraterrestrial_j_m2(day.latitude_rad, 105);
  expect("W26", "eto_mm_d", reference_eto_m_day(day) * 1000.0);
  expect("W26", "daylight_h", daylight_hours(day.latitude_rad, 105));
  expect("W26", "ra_mj_m2", above * 1e-6);
  expect("W26", "rs_mj_m2", day.sun_j_m2 * 1e-6);
  expect("W26", "rso_mj_m2", clear_sky_j_m2(above, 2.0) * 1e-6);
  expect("W26", "rnl_mj_m2", net_longwave_out_j_m2(day) * 1e-6);
  expect("W26", "rn_mj_m2", net_radiation_j_m2(day) * 1e-6);
}

TEST(Weather, W27VapourPressure) { expect("W27", "ea_kpa", vapour_from_extremes_pa(18.0, 25.0, 0.54, 0.82) / 1000.0); }

TEST(Weather, W28PathOfTheSun) {
  expect("W28", "declination_rad", declination_rad(246));
  expect("W28", "sunset_rad", sunset_angle_rad(rad(-20.0), 246));
  expect("W28", "daylight_h", daylight_hours(rad(-20.0), 246));
}

TEST(Weather, W29ClearSkyLongwave) {
  expect("W29", "w_m2", sky_longwave_w_m2(20.0, saturation_pressure_pa(10.0), 1.0));
}

TEST(Weather, W30DayInMay) {
  EtoDay day;
  day.low_c = 19.0;
  day.high_c = 25.1;
  day.vapour_pa = 2100.0;
  day.latitude_rad = rad(-22.9);
  day.day_of_year = 135;
  day.sun_j_m2 = sun_from_sunshine_hours_j_m2(day.latitude_rad, 135, 7.1);
  expect("W30", "rs_mj_m2", day.sun_j_m2 * 1e-6);
  expect("W30", "rnl_mj_m2", net_longwave_out_j_m2(day) * 1e-6);
}

TEST(Weather, W31Wind) { expect("W31", "u2_m_s", wind_at_2m_m_s(3.2, 10.0)); }

}  // namespace
}  // namespace stillheap
