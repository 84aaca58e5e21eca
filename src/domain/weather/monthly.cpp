#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "core/base/plain_number.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/days.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "domain/weather/series.hpp"
#include "domain/weather/smooth.hpp"

namespace stillheap::weather {
namespace {

using Months = std::array<double, 12>;

constexpr double endless = std::numeric_limits<double>::infinity();

std::string short_number(double value) { return plain::to_text(value, 4); }

/// One row a kind of normal: what it may be.
struct Row {
  const char* name;
  const Months& values;
  double least, most;
  const char* allowed;
};

void check_row(const Row& row, std::vector<Problem>& problems) {
  for (std::size_t month = 0; month < 12; ++month) {
    const double value = row.values[month];
    if (value >= row.least && value <= row.most) continue;
    problems.push_back({std::string("weather, monthly ") + row.name + ", " + date::month_names[month],
                        short_number(value) + " cannot be", std::string("give ") + row.allowed});
  }
}

/// Sun that reaches the top of the air, each day.
std::vector<double> sun_above(const Place& place) {
  std::vector<double> above(days_per_year);
  for (int day = 0; day < days_per_year; ++day) {
    above[static_cast<std::size_t>(day)] = extraterrestrial_j_m2(place.latitude_rad, day + 1);
  }
  return above;
}

void check_against_each_other(const Monthly& monthly, const Months& above, std::vector<Problem>& problems) {
  for (std::size_t month = 0; month < 12; ++month) {
    if (monthly.low_c[month] > monthly.high_c[month]) {
      problems.push_back({std::string("weather, monthly low and high, ") + date::month_names[month],
                          "low " + short_number(monthly.low_c[month]) + " degC is above high " +
                              short_number(monthly.high_c[month]) + " degC",
                          "give mean daily lowest and highest temperatures, low first"});
    }
    if (monthly.sun_j_m2_day[month] > above[month]) {
      problems.push_back({std::string("weather, monthly sun, ") + date::month_names[month],
                          short_number(monthly.sun_j_m2_day[month] * 1e-6) + " MJ/m2 a day is more than the " +
                              short_number(above[month] * 1e-6) + " MJ/m2 that reach the air at this latitude",
                          "give global horizontal radiation, or check the latitude"});
    }
  }
}

void check(const Monthly& monthly, const Place& place, const Months& above) {
  std::vector<Problem> problems;
  check_row({"low", monthly.low_c, -70.0, 70.0, "-70 to 70 degC"}, problems);
  check_row({"high", monthly.high_c, -70.0, 70.0, "-70 to 70 degC"}, problems);
  check_row({"humidity", monthly.humidity, 0.01, 1.0, "1 to 100 %"}, problems);
  check_row({"sun", monthly.sun_j_m2_day, 0.0, 45e6, "0 to 45 MJ/m2 a day"}, problems);
  check_row({"wind", monthly.wind_m_s, 0.0, 40.0, "0 to 40 m/s at 2 m"}, problems);
  check_row({"rain", monthly.rain_m_month, 0.0, 10.0, "0 to 10 m a month"}, problems);
  if (!(std::abs(place.latitude_rad) <= 0.5 * constant::pi)) {
    problems.push_back({"place, latitude",
                        short_number(place.latitude_rad * 180.0 / constant::pi) + " degrees cannot be",
                        "give -90 to 90 degrees, north positive"});
  }
  if (problems.empty()) check_against_each_other(monthly, above, problems);
  if (!problems.empty()) throw InputError(problems);
}

void set_temperatures(const Monthly& monthly, std::vector<Day>& days) {
  Months middle{};
  Months half{};
  for (std::size_t month = 0; month < 12; ++month) {
    middle[month] = 0.5 * (monthly.low_c[month] + monthly.high_c[month]);
    half[month] = 0.5 * (monthly.high_c[month] - monthly.low_c[month]);
  }
  const std::vector<double> middles = smooth_days(middle, {-endless, endless});
  const std::vector<double> halves = smooth_days(half, {0.0, endless});
  for (std::size_t day = 0; day < days.size(); ++day) {
    days[day].low_c = middles[day] - halves[day];
    days[day].high_c = middles[day] + halves[day];
  }
}

/// Mean relative humidity of each month if each day had that vapour pressure, never above saturation.
Months humidity_means(const std::vector<double>& vapour_pa, const std::vector<double>& saturated_pa) {
  std::vector<double> days(days_per_year, 0.0);
  for (std::size_t hour = 0; hour < saturated_pa.size(); ++hour) {
    days[hour / 24] += std::min(1.0, vapour_pa[hour / 24] / saturated_pa[hour]) / 24.0;
  }
  return monthly_means(days);
}

/// Vapour pressures whose hourly relative humidities average to the normals. Needs temperatures.
void set_vapour(const Monthly& monthly, const Place& place, std::vector<Day>& days) {
  std::vector<double> saturated_pa;
  std::vector<double> daily_pa(days_per_year, 0.0);
  for (const Hour& hour : hours_from_days(days, place)) {
    daily_pa[saturated_pa.size() / 24] += saturation_pressure_pa(hour.air_c) / 24.0;
    saturated_pa.push_back(saturation_pressure_pa(hour.air_c));
  }
  Months normals = monthly_means(daily_pa);
  for (std::size_t month = 0; month < 12; ++month) normals[month] *= monthly.humidity[month];
  std::vector<double> vapour_pa = smooth_days(normals, {0.0, endless});
  // Saturated hours are cut off, so the mean answers less than one to one; it still settles to rounding long before
  // 60 steps, but for months near 100 %, where a rest below 1e-3 can remain.
  for (int step = 0; step < 60; ++step) {
    const Months means = humidity_means(vapour_pa, saturated_pa);
    double worst = 0.0;
    for (std::size_t month = 0; month < 12; ++month) {
      normals[month] *= monthly.humidity[month] / means[month];
      worst = std::max(worst, std::abs(monthly.humidity[month] - means[month]));
    }
    if (worst < 1e-13) break;
    vapour_pa = smooth_days(normals, {0.0, endless});
  }
  for (std::size_t day = 0; day < days.size(); ++day) days[day].vapour_pa = vapour_pa[day];
}

void set_sun(const Monthly& monthly, const Place& place, const std::vector<double>& above_j_m2,
             std::vector<Day>& days) {
  const Months above = monthly_means(above_j_m2);
  // The share of the sun above the air is drawn smoothly; it stays under a clear sky's unless a normal itself is
  // higher.
  double most = clear_sky_j_m2(1.0, place.elevation_m);
  for (std::size_t month = 0; month < 12; ++month) {
    if (above[month] > 0.0) most = std::max(most, monthly.sun_j_m2_day[month] / above[month]);
  }
  const std::vector<double> sun = smooth_days(monthly.sun_j_m2_day, above_j_m2, {0.0, most});
  for (std::size_t day = 0; day < days.size(); ++day) days[day].sun_j_m2 = sun[day];
}

void set_wind_and_rain(const Monthly& monthly, std::vector<Day>& days) {
  const std::vector<double> wind = smooth_days(monthly.wind_m_s, {0.0, endless});
  for (int day = 0; day < days_per_year; ++day) {
    const auto month = static_cast<std::size_t>(month_of(day));
    Day& one = days[static_cast<std::size_t>(day)];
    one.wind_m_s = wind[static_cast<std::size_t>(day)];
    one.rain_m_s = monthly.rain_m_month[month] / (month_days[month] * constant::seconds_per_day);
  }
}

}  // namespace

Series from_monthly(const Monthly& monthly, const Place& place) {
  const std::vector<double> above_j_m2 = sun_above(place);
  check(monthly, place, monthly_means(above_j_m2));
  std::vector<Day> days(days_per_year);
  set_temperatures(monthly, days);
  set_vapour(monthly, place, days);
  set_sun(monthly, place, above_j_m2, days);
  set_wind_and_rain(monthly, days);
  Series series;
  series.hours = hours_from_days(days, place);
  series.place = place;
  series.source = "monthly normals";
  series.assumptions = day_course_assumptions();
  series.assumptions.push_back({"weather: days within a month",
                                "a smooth mean year through the monthly normals: no fronts, hot spells or storms",
                                "chosen"});
  series.assumptions.push_back({"weather: rain", "spread evenly over every hour of its month", "chosen"});
  series.assumptions.push_back(longwave_assumption());
  series.assumptions.push_back(pressure_assumption(place));
  return series;
}

}  // namespace stillheap::weather
