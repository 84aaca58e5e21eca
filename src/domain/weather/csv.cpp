#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/csv_rows.hpp"
#include "domain/weather/days.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "domain/weather/series.hpp"

namespace stillheap::weather {
namespace {

using csv::Year;

constexpr double usual_wind_m_s = 2.0;  // FAO-56 p. 63: mean of over 2000 stations, where wind is not known

double value(const Year& year, csv::Kind kind, std::size_t step, double otherwise) {
  return year.has(kind) ? year.values[kind][step] : otherwise;
}

double wind_at(const Year& year, std::size_t step, double height_m) {
  return year.has(csv::wind) ? wind_at_2m_m_s(year.values[csv::wind][step], height_m) : usual_wind_m_s;
}

/// Global sun of a day: measured (negative dark readings count as none) or from the day's temperature range.
double sun_of_day(const Year& year, std::size_t day, double low_c, double high_c, const Place& place) {
  if (year.has(csv::sun)) return std::max(0.0, year.values[csv::sun][day]) * constant::seconds_per_day;
  const double above = extraterrestrial_j_m2(place.latitude_rad, static_cast<int>(day) + 1);
  return sun_from_temperatures_j_m2(low_c, high_c, above);
}

std::vector<Hour> hours_from_daily(const Year& year, const CsvColumns& columns, const Place& place) {
  std::vector<Day> days(days_per_year);
  const bool extremes = year.has(csv::low) && year.has(csv::high);
  for (std::size_t step = 0; step < days.size(); ++step) {
    Day& day = days[step];
    day.low_c = extremes ? year.values[csv::low][step] : year.values[csv::air][step];
    day.high_c = extremes ? year.values[csv::high][step] : year.values[csv::air][step];
    const double saturated_pa = 0.5 * (saturation_pressure_pa(day.low_c) + saturation_pressure_pa(day.high_c));
    day.vapour_pa = year.has(csv::humidity) ? std::min(1.0, year.values[csv::humidity][step]) * saturated_pa
                                            : saturation_pressure_pa(day.low_c);
    day.sun_j_m2 = sun_of_day(year, step, day.low_c, day.high_c, place);
    day.wind_m_s = wind_at(year, step, columns.wind_height_m);
    day.rain_m_s = value(year, csv::rain, step, 0.0);
  }
  return hours_from_days(days, place);
}

/// Sun where an hourly file has none, and humidity: both need the day's extremes.
void estimate_from_extremes(const Year& year, std::vector<Hour>& hours, const Place& place) {
  const auto colder = [](const Hour& a, const Hour& b) { return a.air_c < b.air_c; };
  for (std::size_t day = 0; day < days_per_year; ++day) {
    Hour* first = hours.data() + 24 * day;
    const auto [low, high] = std::minmax_element(first, first + 24, colder);
    const double vapour_pa = saturation_pressure_pa(low->air_c);
    const int number = static_cast<int>(day) + 1;
    const double above = extraterrestrial_j_m2(place.latitude_rad, number);
    const double sun_j_m2 = sun_from_temperatures_j_m2(low->air_c, high->air_c, above);
    for (int hour = 0; hour < 24; ++hour) {
      if (!year.has(csv::humidity)) first[hour].humidity = vapour_pa / saturation_pressure_pa(first[hour].air_c);
      if (!year.has(csv::sun)) {
        first[hour].sun_w_m2 = sun_j_m2 * sun_share(place.latitude_rad, number, hour) / constant::seconds_per_hour;
      }
    }
  }
}

std::vector<Hour> hours_from_hourly(const Year& year, const CsvColumns& columns, const Place& place) {
  std::vector<Hour> hours(hours_per_year);
  const double pressure_pa = standard_pressure_pa(place.elevation_m);
  for (std::size_t step = 0; step < hours.size(); ++step) {
    Hour& hour = hours[step];
    hour.air_c = year.values[csv::air][step];
    hour.humidity = std::min(1.0, value(year, csv::humidity, step, 0.0));
    hour.wind_m_s = wind_at(year, step, columns.wind_height_m);
    hour.sun_w_m2 = std::max(0.0, value(year, csv::sun, step, 0.0));
    hour.longwave_w_m2 = -1.0;
    hour.rain_m_s = value(year, csv::rain, step, 0.0);
    hour.pressure_pa = pressure_pa;
  }
  if (!year.has(csv::humidity) || !year.has(csv::sun)) estimate_from_extremes(year, hours, place);
  fill_longwave(hours, place);
  return hours;
}

void note_lacks(const Year& year, const CsvColumns& columns, Assumptions& notes) {
  const bool extremes = year.has(csv::low) && year.has(csv::high);
  if (!year.hourly && !extremes) {
    notes.push_back({"weather: day and night", "the file has daily means only: no course over the day", "chosen"});
  }
  if (!year.has(csv::humidity)) {
    notes.push_back({"weather: humidity", "not in the file: dew point taken as the day's lowest temperature",
                     "FAO-56 (Allen et al. 1998) eq. 48"});
  }
  if (!year.has(csv::sun)) {
    notes.push_back({"weather: sun", "not in the file: from the day's temperature range, inland (factor 0.16)",
                     "FAO-56 (Allen et al. 1998) eq. 50"});
  }
  if (!year.has(csv::wind)) {
    notes.push_back({"weather: wind", "not in the file: 2 m/s at 2 m", "FAO-56 (Allen et al. 1998) p. 63"});
  } else if (columns.wind_height_m != 2.0) {
    notes.push_back({"weather: wind", "brought down to 2 m over short grass", "FAO-56 (Allen et al. 1998) eq. 47"});
  }
  if (!year.has(csv::rain)) notes.push_back({"weather: rain", "not in the file: none", "chosen"});
}

void check_extremes(const Year& year, const std::filesystem::path& file) {
  FileProblems problems(file.string());
  const bool extremes = year.has(csv::low) && year.has(csv::high);
  for (std::size_t day = 0; !year.hourly && extremes && day < days_per_year; ++day) {
    if (year.values[csv::low][day] <= year.values[csv::high][day]) continue;
    const int month = month_of(static_cast<int>(day));
    problems.add(0, "low and high",
                 "low is above high on day " + std::to_string(static_cast<int>(day) - first_day_of(month) + 1) +
                     " of month " + std::to_string(month + 1),
                 "check whether the columns are swapped");
  }
  if (!year.hourly && !extremes && !year.has(csv::sun)) {
    problems.add(0, "sun", "daily means of temperature without sun", "name a column of sun, or of low and high");
  }
  problems.throw_if_any();
}

}  // namespace

Series from_csv(const std::filesystem::path& file, const CsvColumns& columns, const Place& place) {
  if (!(columns.wind_height_m >= 0.5 && columns.wind_height_m <= 200.0)) {
    throw InputError(file.string() + ": wind height", std::to_string(columns.wind_height_m) + " m cannot be",
                     "give 0.5 to 200 m");
  }
  const Year year = csv::read_year(file, columns);
  check_extremes(year, file);
  Series series;
  series.place = place;
  series.source = "CSV file " + file.filename().string();
  series.assumptions = year.assumptions;
  note_lacks(year, columns, series.assumptions);
  if (year.hourly) {
    series.hours = hours_from_hourly(year, columns, place);
  } else {
    series.hours = hours_from_daily(year, columns, place);
    const Assumptions course = day_course_assumptions();
    series.assumptions.insert(series.assumptions.end(), course.begin(), course.end());
  }
  series.assumptions.push_back(longwave_assumption());
  series.assumptions.push_back(pressure_assumption(place));
  return series;
}

}  // namespace stillheap::weather
