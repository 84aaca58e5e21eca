#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/days.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "domain/weather/series.hpp"
#include "domain/weather/table.hpp"

/// Format: "EnergyPlus Weather File (EPW) Data Dictionary" in the public auxiliary programs documentation.
namespace stillheap::weather {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();
constexpr std::size_t header_lines = 8;
constexpr std::size_t bridged_hours = 6;  // chosen: a front can pass in a longer gap
constexpr double wind_gauge_m = 10.0;     // airports' standard height, which the format's sources follow

/// One row a field we read: place in the record, the format's own limits and its mark for "missing" (that or more).
struct Field {
  std::size_t column;
  const char* name;
  double missing_from, least, most;
  const char* allowed;
};

enum Kind : std::size_t { air, dew, humidity, pressure, infrared, global, wind, rain, kinds };

constexpr std::array<Field, kinds> fields{{
    {6, "dry bulb temperature", 99.9, -70.0, 70.0, "-70 to 70 degC, 99.9 for missing"},
    {7, "dew point temperature", 99.9, -70.0, 70.0, "-70 to 70 degC, 99.9 for missing"},
    {8, "relative humidity", 999.0, 0.0, 110.0, "0 to 110 %, 999 for missing"},
    {9, "atmospheric station pressure", 999999.0, 31000.0, 120000.0, "31000 to 120000 Pa, 999999 for missing"},
    {12, "horizontal infrared radiation intensity", 9999.0, 0.0, endless, "0 or more Wh/m2, 9999 for missing"},
    {13, "global horizontal radiation", 9999.0, 0.0, endless, "0 or more Wh/m2, 9999 for missing"},
    {21, "wind speed", 999.0, 0.0, 40.0, "0 to 40 m/s, 999 for missing"},
    {33, "liquid precipitation depth", 999.0, 0.0, endless, "0 or more mm, 999 for missing"},
}};

using Record = std::vector<std::string>;
using Columns = std::array<std::vector<double>, kinds>;  // one value an hour of the year, NaN where missing

std::string named(const Field& field) { return "field " + std::to_string(field.column + 1) + ", " + field.name; }

Record split(const std::string& line) { return split_record(line, ',').value_or(Record{}); }

double header_number(const Record& record, std::size_t column, const char* name, double least, double most,
                     FileProblems& problems) {
  const std::string text = column < record.size() ? record[column] : "";
  const std::optional<double> value = number_of(text);
  if (value && *value >= least && *value <= most) return *value;
  problems.add(1, "LOCATION, field " + std::to_string(column + 1) + ", " + name, "\"" + text + "\" cannot be",
               "give " + std::to_string(static_cast<int>(least)) + " to " + std::to_string(static_cast<int>(most)));
  return 0.0;
}

Place read_location(const std::vector<std::string>& lines, FileProblems& problems) {
  const Record record = lines.empty() ? Record{} : split(lines.front());
  if (record.empty() || record[0] != "LOCATION") {
    problems.add(1, "", "does not start with LOCATION", "give an EnergyPlus weather file (EPW)");
    problems.throw_if_any();
  }
  constexpr double radian = constant::pi / 180.0;
  Place place;
  place.latitude_rad = radian * header_number(record, 6, "latitude", -90.0, 90.0, problems);
  place.longitude_rad = radian * header_number(record, 7, "longitude", -180.0, 180.0, problems);
  place.elevation_m = header_number(record, 9, "elevation", -1000.0, 9000.0, problems);
  return place;
}

void check_data_periods(const std::vector<std::string>& lines, FileProblems& problems) {
  const Record record = lines.size() < header_lines ? Record{} : split(lines[header_lines - 1]);
  if (record.size() < 3 || record[0] != "DATA PERIODS") {
    problems.add(header_lines, "", "is not the DATA PERIODS line", "keep the eight header lines of the format");
    return;
  }
  if (record[1] != "1" || record[2] != "1") {
    problems.add(header_lines, "DATA PERIODS", record[1] + " periods, " + record[2] + " records an hour",
                 "give one period of one record an hour");
  }
}

double read_field(const Record& record, const Field& field, std::size_t line, FileProblems& problems) {
  if (field.column >= record.size() || record[field.column].empty()) return missing;
  const std::string& text = record[field.column];
  const std::optional<double> value = number_of(text);
  if (value && *value >= field.missing_from) return missing;
  if (value && *value >= field.least && *value <= field.most) return *value;
  problems.add(line, named(field), "\"" + text + "\" cannot be", std::string("allowed are ") + field.allowed);
  return missing;
}

/// The hour that starts an hourly record's span; nullopt when month, day or hour are not numbers of a real day.
std::optional<Moment> span_start(const Record& record) {
  if (record.size() < 4) return std::nullopt;
  const auto part = [&](std::size_t column, int least, int most) -> std::optional<int> {
    const std::optional<double> value = number_of(record[column]);
    if (!value || *value < least || *value > most || *value != std::floor(*value)) return std::nullopt;
    return static_cast<int>(*value);
  };
  const std::optional<int> month = part(1, 1, 12);
  const std::optional<int> hour = part(3, 1, 24);
  const std::optional<int> day =
      month ? part(2, 1, *month == 2 ? 29 : month_days[static_cast<std::size_t>(*month - 1)]) : std::nullopt;
  if (!month || !day || !hour) return std::nullopt;
  return Moment{2000, *month, *day, *hour - 1};
}

std::string month_day_hour(int hour_of_year) {
  const int month = month_of(hour_of_year / 24);
  return "month " + std::to_string(month + 1) + ", day " + std::to_string(hour_of_year / 24 - first_day_of(month) + 1) +
         ", hour " + std::to_string(hour_of_year % 24 + 1);
}

struct Body {
  Columns columns;
  bool leap_day = false;
};

/// Reads the records, which must follow each other hour by hour; stops at the first that does not.
Body read_records(const std::vector<std::string>& lines, FileProblems& problems) {
  Body body;
  for (std::vector<double>& column : body.columns) column.assign(hours_per_year, missing);
  int expected = 0;
  for (std::size_t row = header_lines; row < lines.size(); ++row) {
    if (lines[row].empty()) continue;
    const Record record = split(lines[row]);
    const std::optional<Moment> moment = span_start(record);
    const std::optional<int> hour = moment ? hour_of_year(*moment) : std::nullopt;
    if (moment && !hour) {
      body.leap_day = true;
      continue;
    }
    if (!hour || *hour != expected || expected == hours_per_year) {
      const std::string found =
          record.size() < 4 ? lines[row].substr(0, 20) : record[1] + "/" + record[2] + " " + record[3];
      problems.add(row + 1, "fields 2 to 4, month, day, hour", "\"" + found + "\" is out of order",
                   expected == hours_per_year ? "the file must end after 31 December, hour 24"
                                              : "expected " + month_day_hour(expected));
      return body;
    }
    if (record.size() <= fields[wind].column) {
      problems.add(row + 1, "", "has " + std::to_string(record.size()) + " fields",
                   "give at least 22, up to wind speed");
    }
    for (std::size_t kind = 0; kind < kinds; ++kind) {
      body.columns[kind][static_cast<std::size_t>(*hour)] = read_field(record, fields[kind], row + 1, problems);
    }
    ++expected;
  }
  if (expected < hours_per_year) {
    problems.add(0, "", "holds " + std::to_string(expected) + " hours, the last before " + month_day_hour(expected),
                 "give the whole year, 8760 hours");
  }
  return body;
}

/// Values given for the end of their hour, put on the clock: record k belongs to k + 1 o'clock.
void move_to_end(std::vector<double>& values) { std::rotate(values.rbegin(), values.rbegin() + 1, values.rend()); }

/// Sums over an hour shared between its two ends, so that straight lines between the ends keep the year's sum.
void share_between_ends(std::vector<double>& values) {
  const double last = values.back();
  double before = last;
  for (double& value : values) {
    const double here = value;
    value = 0.5 * (before + here);
    before = here;
  }
}

std::size_t count_missing(const std::vector<double>& values) {
  return static_cast<std::size_t>(std::count_if(values.begin(), values.end(), [](double v) { return std::isnan(v); }));
}

void fill_humidity_from_dew_point(Columns& columns) {
  for (std::size_t hour = 0; hour < hours_per_year; ++hour) {
    double& one = columns[humidity][hour];
    const double dew_c = columns[dew][hour];
    const double air_c = columns[air][hour];
    if (std::isnan(one) && !std::isnan(dew_c) && !std::isnan(air_c)) {
      one = 100.0 * saturation_pressure_pa(dew_c) / saturation_pressure_pa(air_c);
    }
  }
}

void bridge_short_gaps(Columns& columns, FileProblems& problems, Assumptions& assumptions) {
  for (const Kind kind : {air, humidity, global, wind}) {
    std::vector<double>& values = columns[kind];
    const std::size_t lacking = count_missing(values);
    if (lacking == 0) continue;
    for (const Gap& gap : gaps_of(values)) {
      if (gap.length() <= bridged_hours) continue;
      problems.add(0, named(fields[kind]),
                   "is missing for " + std::to_string(gap.length()) + " hours from " +
                       month_day_hour(static_cast<int>(gap.first)),
                   "fill it in; gaps of up to " + std::to_string(bridged_hours) + " hours are bridged");
    }
    bridge(values);
    assumptions.push_back({std::string("weather: gaps in ") + fields[kind].name,
                           std::to_string(lacking) + " missing hours bridged by straight lines", "chosen"});
  }
}

void fill_pressure_and_rain(Columns& columns, const Place& place, Assumptions& assumptions) {
  if (const std::size_t lacking = count_missing(columns[pressure]); lacking > 0) {
    Assumption note = pressure_assumption(place);
    note.value = std::to_string(lacking) + " missing hours: " + note.value;
    assumptions.push_back(note);
  }
  if (const std::size_t lacking = count_missing(columns[rain]); lacking > 0) {
    assumptions.push_back({"weather: rain", std::to_string(lacking) + " missing hours taken as dry", "chosen"});
  }
  const auto fill = [](std::vector<double>& values, double with) {
    std::replace_if(
        values.begin(), values.end(), [](double v) { return std::isnan(v); }, with);
  };
  fill(columns[pressure], standard_pressure_pa(place.elevation_m));
  fill(columns[rain], 0.0);
}

std::vector<Hour> to_hours(Columns columns) {
  for (const Kind kind : {air, humidity, pressure, infrared, wind}) move_to_end(columns[kind]);
  for (const Kind kind : {global, rain}) share_between_ends(columns[kind]);
  std::vector<Hour> hours(hours_per_year);
  for (std::size_t hour = 0; hour < hours.size(); ++hour) {
    Hour& one = hours[hour];
    one.air_c = columns[air][hour];
    one.humidity = std::clamp(columns[humidity][hour] / 100.0, 0.0, 1.0);
    one.wind_m_s = wind_at_2m_m_s(columns[wind][hour], wind_gauge_m);
    one.sun_w_m2 = columns[global][hour];  // Wh/m2 over one hour
    one.longwave_w_m2 = std::isnan(columns[infrared][hour]) ? -1.0 : columns[infrared][hour];
    one.rain_m_s = columns[rain][hour] * 1e-3 / constant::seconds_per_hour;
    one.pressure_pa = columns[pressure][hour];
  }
  return hours;
}

void note_reading(const Body& body, Assumptions& assumptions) {
  assumptions.push_back({"weather: wind", "measured 10 m above ground, brought down to 2 m over short grass",
                         "FAO-56 (Allen et al. 1998) eq. 47; height as usual at airports"});
  assumptions.push_back({"weather: sun and rain within an hour",
                         "the sum of each hour is shared between its two ends; the year's sum is kept", "chosen"});
  if (body.leap_day) assumptions.push_back({"weather: 29 February", "left out", "chosen"});
}

}  // namespace

Series from_epw(const std::filesystem::path& file) {
  const std::vector<std::string> lines = lines_of(file);
  FileProblems problems(file.string());
  Series series;
  series.place = read_location(lines, problems);
  check_data_periods(lines, problems);
  problems.throw_if_any();
  Body body = read_records(lines, problems);
  problems.throw_if_any();
  note_reading(body, series.assumptions);
  fill_humidity_from_dew_point(body.columns);
  bridge_short_gaps(body.columns, problems, series.assumptions);
  problems.throw_if_any();
  fill_pressure_and_rain(body.columns, series.place, series.assumptions);
  series.hours = to_hours(std::move(body.columns));
  if (const int filled = fill_longwave(series.hours, series.place); filled > 0) {
    Assumption note = longwave_assumption();
    note.value = std::to_string(filled) + " missing hours: " + note.value;
    series.assumptions.push_back(note);
  }
  series.source = "EPW file " + file.filename().string();
  return series;
}

}  // namespace stillheap::weather
