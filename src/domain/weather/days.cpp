#include "domain/weather/days.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/evapotranspiration.hpp"

namespace stillheap::weather {
namespace {

using constant::pi;

std::size_t index(int value) { return static_cast<std::size_t>(value); }

/// Integral of the sine of the sun's height from one hour angle to another, both within the day's arc.
double path_between(double latitude_rad, double declination, double from, double to) noexcept {
  return (to - from) * std::sin(latitude_rad) * std::sin(declination) +
         std::cos(latitude_rad) * std::cos(declination) * (std::sin(to) - std::sin(from));
}

/// Hourly courses of one day, brought to run from exactly 0 to exactly 1 on the hours.
std::array<double, 24> hourly_course(double daylight_h) {
  std::array<double, 24> course{};
  for (int hour = 0; hour < 24; ++hour) course[index(hour)] = temperature_course(daylight_h, hour);
  const auto [low, high] = std::minmax_element(course.begin(), course.end());
  const double least = *low;
  const double range = *high - least;
  for (double& value : course) value = (value - least) / range;
  return course;
}

double clear_share_of_day(double sun_j_m2, const Place& place, int day_of_year) {
  const double above = extraterrestrial_j_m2(place.latitude_rad, day_of_year);
  return clear_share(sun_j_m2, clear_sky_j_m2(above, place.elevation_m));
}

}  // namespace

double sun_share(double latitude_rad, int day_of_year, int hour) noexcept {
  const double sunset = sunset_angle_rad(latitude_rad, day_of_year);
  const double declination = declination_rad(day_of_year);
  const double whole = path_between(latitude_rad, declination, -sunset, sunset);
  if (sunset <= 0.0 || whole <= 0.0) return 0.0;
  const auto part = [&](double from, double to) {
    const double start = std::clamp(from, -sunset, sunset);
    const double end = std::clamp(to, -sunset, sunset);
    return path_between(latitude_rad, declination, start, end);
  };
  const double step = pi / 12.0;
  if (hour == 0) return (part(-pi, -pi + 0.5 * step) + part(pi - 0.5 * step, pi)) / whole;
  const double angle = (hour - 12) * step;
  return part(angle - 0.5 * step, angle + 0.5 * step) / whole;
}

double temperature_course(double daylight_h, double solar_hour) noexcept {
  constexpr double lag_h = 1.5;      // highest this long after noon
  constexpr double cooling_h = 4.0;  // time constant of the night
  const double day = std::clamp(daylight_h, 4.0, 20.0);
  const double night = 24.0 - day;
  const double sunrise = 12.0 - 0.5 * day;
  const double sunset = 12.0 + 0.5 * day;
  if (solar_hour >= sunrise && solar_hour <= sunset) {
    return std::sin(pi * (solar_hour - sunrise) / (day + 2.0 * lag_h));
  }
  const double at_sunset = std::sin(pi * day / (day + 2.0 * lag_h));
  const double since = solar_hour > sunset ? solar_hour - sunset : solar_hour + 24.0 - sunset;
  const double last = std::exp(-night / cooling_h);
  return at_sunset * (std::exp(-since / cooling_h) - last) / (1.0 - last);
}

double sky_longwave_w_m2(double celsius, double vapour_pa, double clear_share) noexcept {
  const double kelvin = celsius + constant::zero_celsius_k;
  const double clear = 1.24 * std::pow(std::max(vapour_pa, 0.0) / 100.0 / kelvin, 1.0 / 7.0);
  const double cloud = 1.0 - clear_share;
  const double emissivity = std::min(1.0, cloud + (1.0 - cloud) * clear);
  return emissivity * constant::stefan_boltzmann_w_m2_k4 * kelvin * kelvin * kelvin * kelvin;
}

std::vector<Hour> hours_from_days(const std::vector<Day>& days, const Place& place) {
  std::vector<Hour> hours(hours_per_year);
  const double pressure_pa = standard_pressure_pa(place.elevation_m);
  for (int day = 0; day < days_per_year; ++day) {
    const Day& now = days[index(day)];
    const double clear = clear_share_of_day(now.sun_j_m2, place, day + 1);
    const std::array<double, 24> course = hourly_course(daylight_hours(place.latitude_rad, day + 1));
    for (int hour = 0; hour < 24; ++hour) {
      Hour& one = hours[index(24 * day + hour)];
      one.air_c = now.low_c + (now.high_c - now.low_c) * course[index(hour)];
      const double vapour_pa = std::min(now.vapour_pa, saturation_pressure_pa(one.air_c));
      one.humidity = vapour_pa / saturation_pressure_pa(one.air_c);
      one.wind_m_s = now.wind_m_s;
      one.sun_w_m2 = now.sun_j_m2 * sun_share(place.latitude_rad, day + 1, hour) / constant::seconds_per_hour;
      one.longwave_w_m2 = sky_longwave_w_m2(one.air_c, vapour_pa, clear);
      one.rain_m_s = now.rain_m_s;
      one.pressure_pa = pressure_pa;
    }
  }
  return hours;
}

Assumptions day_course_assumptions() {
  return {
      {"weather: air temperature over the day",
       "lowest at sunrise, highest 1.5 h after solar noon, sine by day, exponential cooling with 4 h by night",
       "Goudriaan & van Laar 1994"},
      {"weather: sun over the day", "follows the sun's height and adds up to the daily total; solar time is local time",
       "FAO-56 (Allen et al. 1998) eq. 28"},
      {"weather: humidity over the day", "vapour pressure is the same all day, but never above saturation", "chosen"},
      {"weather: wind and rain over the day", "the same at every hour of a day", "chosen"},
  };
}

Assumption longwave_assumption() {
  return {"weather: longwave from the sky",
          "from air temperature and vapour pressure, cloud from the day's sun against a clear sky",
          "Brutsaert 1975 (clear sky); Crawford & Duchon 1999 (cloud, from memory)"};
}

Assumption pressure_assumption(const Place& place) {
  char text[64];
  std::snprintf(text, sizeof text, "%.0f Pa all year, from the elevation", standard_pressure_pa(place.elevation_m));
  return {"weather: air pressure", text, "US Standard Atmosphere 1976"};
}

std::vector<double> daily_sun_j_m2(const std::vector<Hour>& hours) {
  std::vector<double> days(days_per_year, 0.0);
  for (std::size_t hour = 0; hour < hours.size(); ++hour) {
    days[hour / 24] += hours[hour].sun_w_m2 * constant::seconds_per_hour;
  }
  return days;
}

int fill_longwave(std::vector<Hour>& hours, const Place& place) {
  const std::vector<double> sun = daily_sun_j_m2(hours);
  int filled = 0;
  for (std::size_t hour = 0; hour < hours.size(); ++hour) {
    Hour& one = hours[hour];
    if (one.longwave_w_m2 >= 0.0) continue;
    const int day = static_cast<int>(hour / 24);
    const double clear = clear_share_of_day(sun[index(day)], place, day + 1);
    one.longwave_w_m2 = sky_longwave_w_m2(one.air_c, one.humidity * saturation_pressure_pa(one.air_c), clear);
    ++filled;
  }
  return filled;
}

}  // namespace stillheap::weather
