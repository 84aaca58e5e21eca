#pragma once
#include <vector>

#include "domain/weather/series.hpp"

/// From daily weather to hourly, and the sky's longwave.
namespace stillheap::weather {

/// One day of weather.
struct Day {
  double low_c = 0.0, high_c = 0.0;
  double vapour_pa = 0.0;  ///< the same all day
  double sun_j_m2 = 0.0;   ///< global horizontal, over the day
  double wind_m_s = 0.0;   ///< at 2 m
  double rain_m_s = 0.0;
};

/// Share of the day's sun that falls within half an hour of an hour 0..23 of solar time; the 24 add up to 1 (all 0
/// where no sun rises). Source: sun height integrated over the hour as in FAO-56 eq. 28.
[[nodiscard]] double sun_share(double latitude_rad, int day_of_year, int hour) noexcept;

/// Course of air temperature over the day at a solar hour, 0 at the lowest and 1 at the highest: sine by day, highest
/// 1.5 h after noon, exponential cooling with 4 h by night, lowest at sunrise. The day is taken as 4 to 20 h long.
/// Source: Goudriaan & van Laar 1994, Modelling potential crop growth processes (as used in an open model of late
/// blight; the limits of day length are chosen).
[[nodiscard]] double temperature_course(double daylight_h, double solar_hour) noexcept;

/// Longwave radiation down from the sky, W/m2.
///   e = c + (1 - c) 1.24 (e_a / T)^(1/7), c = 1 - clear share, e_a in hPa, T in K
/// Source: clear sky Brutsaert 1975, Water Resour. Res. 11, 742-744; cloud Crawford & Duchon 1999, J. Appl.
/// Meteorol. 38, 474-480 (from memory).
[[nodiscard]] double sky_longwave_w_m2(double celsius, double vapour_pa, double clear_share) noexcept;

/// 8760 hours from 365 days, hour h of a day standing for the clock showing h. Solar time is taken as local time.
[[nodiscard]] std::vector<Hour> hours_from_days(const std::vector<Day>& days, const Place& place);

/// What hours_from_days takes for granted.
[[nodiscard]] Assumptions day_course_assumptions();
/// How longwave and pressure come about where nothing was measured.
[[nodiscard]] Assumption longwave_assumption();
[[nodiscard]] Assumption pressure_assumption(const Place& place);

/// Global horizontal sun over each of 365 days of an hourly series, J/m2.
[[nodiscard]] std::vector<double> daily_sun_j_m2(const std::vector<Hour>& hours);

/// Fills in longwave for hours where it is negative (the mark of "not measured"), from the day's sun.
/// Returns how many were filled.
int fill_longwave(std::vector<Hour>& hours, const Place& place);

}  // namespace stillheap::weather
