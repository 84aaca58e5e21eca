#include "domain/weather/series.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/evapotranspiration.hpp"

namespace stillheap::weather {
namespace {

Hour between(const Hour& from, const Hour& to, double share) noexcept {
  const auto mix = [share](double a, double b) { return a + share * (b - a); };
  return {mix(from.air_c, to.air_c),
          mix(from.humidity, to.humidity),
          mix(from.wind_m_s, to.wind_m_s),
          mix(from.sun_w_m2, to.sun_w_m2),
          mix(from.longwave_w_m2, to.longwave_w_m2),
          mix(from.rain_m_s, to.rain_m_s),
          mix(from.pressure_pa, to.pressure_pa)};
}

double vapour_of(const Hour& hour) noexcept { return hour.humidity * saturation_pressure_pa(hour.air_c); }

Hour mean_of(const Hour* first, std::size_t count) {
  Hour mean{0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
  double vapour_pa = 0.0;
  const double share = 1.0 / static_cast<double>(count);
  for (const Hour* one = first; one != first + count; ++one) {
    mean.air_c += share * one->air_c;
    mean.wind_m_s += share * one->wind_m_s;
    mean.sun_w_m2 += share * one->sun_w_m2;
    mean.longwave_w_m2 += share * one->longwave_w_m2;
    mean.rain_m_s += share * one->rain_m_s;
    mean.pressure_pa += share * one->pressure_pa;
    vapour_pa += share * vapour_of(*one);
  }
  mean.humidity = std::min(1.0, vapour_pa / saturation_pressure_pa(mean.air_c));
  return mean;
}

EtoDay eto_day(const Series& series, std::size_t day) {
  const std::size_t steps = series.hours.size() / days_per_year;
  const Hour* first = series.hours.data() + day * steps;
  const auto colder = [](const Hour& a, const Hour& b) { return a.air_c < b.air_c; };
  const auto [low, high] = std::minmax_element(first, first + steps, colder);
  EtoDay result;
  result.low_c = low->air_c;
  result.high_c = high->air_c;
  result.latitude_rad = series.place.latitude_rad;
  result.elevation_m = series.place.elevation_m;
  result.day_of_year = static_cast<int>(day) + 1;
  const double share = 1.0 / static_cast<double>(steps);
  for (const Hour* one = first; one != first + steps; ++one) {
    result.vapour_pa += share * vapour_of(*one);
    result.wind_2m_m_s += share * one->wind_m_s;
    result.sun_j_m2 += share * one->sun_w_m2 * constant::seconds_per_day;
  }
  return result;
}

}  // namespace

Series daily_means(const Series& series) {
  Series daily = series;
  const std::size_t steps = series.hours.size() / days_per_year;
  if (steps <= 1) return daily;
  daily.hours.clear();
  for (std::size_t day = 0; day < days_per_year; ++day) {
    daily.hours.push_back(mean_of(series.hours.data() + day * steps, steps));
  }
  daily.first_s = 0.5 * constant::seconds_per_day;
  daily.assumptions.push_back({"weather: day and night", "left out: each day is its mean (draft)", "chosen"});
  return daily;
}

Hour at(const Series& series, double seconds) noexcept {
  const std::size_t count = series.hours.size();
  if (count == 0) return {};
  double year_s = std::fmod(seconds - series.first_s, seconds_per_year);
  if (year_s < 0.0) year_s += seconds_per_year;
  const double step = year_s * static_cast<double>(count) / seconds_per_year;
  const std::size_t before = std::min(static_cast<std::size_t>(step), count - 1);
  const std::size_t after = before + 1 == count ? 0 : before + 1;
  return between(series.hours[before], series.hours[after], step - static_cast<double>(before));
}

std::array<double, 12> monthly_eto_m_s(const Series& series) {
  std::array<double, 12> eto{};
  if (series.hours.size() < days_per_year) return eto;
  for (int day = 0; day < days_per_year; ++day) {
    const auto month = static_cast<std::size_t>(month_of(day));
    eto[month] += reference_eto_m_day(eto_day(series, static_cast<std::size_t>(day))) /
                  (month_days[month] * constant::seconds_per_day);
  }
  return eto;
}

}  // namespace stillheap::weather
