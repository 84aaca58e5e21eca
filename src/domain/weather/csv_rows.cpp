#include "domain/weather/csv_rows.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "core/base/plain_number.hpp"
#include "domain/weather/calendar.hpp"

namespace stillheap::weather::csv {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t bridged_hours = 6;  // chosen: a front can pass in a longer gap
constexpr std::size_t bridged_days = 3;   // chosen: weather keeps its kind for a few days

struct Row {
  std::size_t line = 0;
  long hours = 0;                      // since 1970
  std::array<double, kinds> values{};  // SI but for amounts a row
};

std::string number(double value) { return plain::to_text(value, 6); }

double read_value(const std::vector<std::string>& record, const Column& column, std::size_t line,
                  FileProblems& problems) {
  if (!column.present || column.field >= record.size() || record[column.field].empty()) return missing;
  const std::optional<double> value = number_of(record[column.field]);
  if (value) return column.unit.scale * *value + column.unit.offset;
  problems.add(line, column.header, "\"" + record[column.field] + "\" is not a number",
               "give a number with a decimal point, or leave the field empty");
  return missing;
}

std::vector<Row> read_rows(const std::vector<std::string>& lines, const Layout& layout, FileProblems& problems) {
  std::vector<Row> rows;
  for (std::size_t index = 1; index < lines.size(); ++index) {
    if (lines[index].empty()) continue;
    const auto record = split_record(lines[index], layout.delimiter);
    if (!record) {
      problems.add(index + 1, "", "a quote is not closed or is followed by text", "quote whole fields, on one line");
      continue;
    }
    const std::string time = layout.time_field < record->size() ? (*record)[layout.time_field] : "";
    const std::optional<Moment> moment = moment_of(time);
    if (!moment) {
      problems.add(index + 1, "time", "\"" + time + "\" is not a time we read",
                   "give local standard time on the hour as 2023-07-05 14:00, or days as 2023-07-05");
      continue;
    }
    Row row{index + 1, hours_since_epoch(*moment), {}};
    for (std::size_t kind = 0; kind < kinds; ++kind) {
      row.values[kind] = read_value(*record, layout.columns[kind], row.line, problems);
    }
    rows.push_back(row);
  }
  return rows;
}

/// Hours between rows: 1 or 24; all times must lie on that step, each once and in order.
long find_step(const std::vector<Row>& rows, FileProblems& problems) {
  if (rows.size() < 2) {
    problems.add(0, "", "holds " + std::to_string(rows.size()) + " rows", "give a whole year of hours or days");
    return 1;
  }
  long step = std::numeric_limits<long>::max();
  for (std::size_t index = 1; index < rows.size(); ++index) {
    const long apart = rows[index].hours - rows[index - 1].hours;
    if (apart > 0) step = std::min(step, apart);
    if (apart > 0) continue;
    const std::string time = to_text(moment_at(rows[index].hours));
    problems.add(rows[index].line, "time",
                 apart == 0 ? time + " stands already in line " + std::to_string(rows[index - 1].line)
                            : time + " comes after a later time",
                 "give each time once, in order");
  }
  if (step != 1 && step != 24) {
    problems.add(0, "time", "rows are " + std::to_string(step) + " h apart", "give hourly or daily rows");
    return 1;
  }
  for (const Row& row : rows) {
    if ((row.hours - rows.front().hours) % step == 0) continue;
    problems.add(row.line, "time", to_text(moment_at(row.hours)) + " is off the daily step", "give one row a day");
  }
  return step;
}

/// Amounts a row become rates; then each value must lie in its range.
void to_rates(std::vector<Row>& rows, const Layout& layout, long step_h, FileProblems& problems) {
  for (Row& row : rows) {
    for (std::size_t kind = 0; kind < kinds; ++kind) {
      const Column& column = layout.columns[kind];
      double& value = row.values[kind];
      if (!column.present || std::isnan(value)) continue;
      if (column.unit.per_step) value /= static_cast<double>(step_h) * constant::seconds_per_hour;
      const Quantity& quantity = quantity_of(static_cast<Kind>(kind));
      if (value >= quantity.least && value <= quantity.most) continue;
      const double stated =
          column.unit.per_step ? value * static_cast<double>(step_h) * constant::seconds_per_hour : value;
      problems.add(row.line, column.header,
                   number((stated - column.unit.offset) / column.unit.scale) + " " + column.unit.name + " cannot be",
                   std::string("allowed are ") + quantity.allowed);
    }
  }
}

long year_later(long hours) {
  Moment moment = moment_at(hours);
  ++moment.year;
  if (moment.month == 2 && moment.day == 29) moment = {moment.year, 3, 1, moment.hour};
  return hours_since_epoch(moment);
}

std::string step_text(std::size_t step, bool hourly) {
  const int hour = static_cast<int>(hourly ? step : 24 * step);
  const int month = month_of(hour / 24);
  char text[48];
  std::snprintf(text, sizeof text, hourly ? "%02d-%02d %02d:00" : "%02d-%02d", month + 1,
                hour / 24 - first_day_of(month) + 1, hour % 24);
  return text;
}

/// Puts the rows of the first whole year where they belong between January and December.
Year place_in_year(const std::vector<Row>& rows, const Layout& layout, long step_h) {
  Year year;
  year.hourly = step_h == 1;
  const auto steps = static_cast<std::size_t>(year.hourly ? hours_per_year : days_per_year);
  for (std::size_t kind = 0; kind < kinds; ++kind) {
    if (layout.columns[kind].present) year.values[kind].assign(steps, missing);
  }
  const long end = year_later(rows.front().hours);
  std::size_t unused = 0;
  std::size_t leap = 0;
  for (const Row& row : rows) {
    const std::optional<int> hour = hour_of_year(moment_at(row.hours));
    if (row.hours >= end) {
      ++unused;
      continue;
    }
    if (!hour) {
      ++leap;
      continue;
    }
    const auto step = static_cast<std::size_t>(*hour / static_cast<int>(step_h));
    for (std::size_t kind = 0; kind < kinds; ++kind) {
      if (layout.columns[kind].present) year.values[kind][step] = row.values[kind];
    }
  }
  const std::string from = to_text(moment_at(rows.front().hours));
  year.assumptions.push_back({"weather: one year repeated",
                              "the year from " + from + " stands for every year; it joins itself at its end" +
                                  (unused > 0 ? ", " + std::to_string(unused) + " later rows are not used" : ""),
                              "chosen"});
  if (leap > 0) year.assumptions.push_back({"weather: 29 February", "left out", "chosen"});
  return year;
}

void bridge_gaps(Year& year, const Layout& layout, FileProblems& problems) {
  const std::size_t longest = year.hourly ? bridged_hours : bridged_days;
  const char* unit = year.hourly ? " hours" : " days";
  for (std::size_t kind = 0; kind < kinds; ++kind) {
    std::vector<double>& values = year.values[kind];
    const std::string& header = layout.columns[kind].header;
    for (const Gap& gap : gaps_of(values)) {
      const std::string span = step_text(gap.first, year.hourly) + " to " + step_text(gap.last, year.hourly);
      if (gap.length() > longest) {
        problems.add(0, header, "is missing from " + span + " (" + std::to_string(gap.length()) + unit + ")",
                     "fill it in; gaps of up to " + std::to_string(longest) + unit + " are bridged");
      } else {
        year.assumptions.push_back({"weather: gap in " + header, span + " bridged by a straight line", "chosen"});
      }
    }
    bridge(values);
  }
}

void check_wanted(const Year& year, FileProblems& problems) {
  const bool extremes = year.has(low) && year.has(high);
  if (year.has(air) || (!year.hourly && extremes)) return;
  problems.add(0, "", year.hourly ? "hourly rows without a column for air" : "daily rows without air temperature",
               "name the column of air temperature, or for daily rows those of low and high");
}

}  // namespace

Year read_year(const std::filesystem::path& file, const CsvColumns& columns) {
  const std::vector<std::string> lines = lines_of(file);
  FileProblems problems(file.string());
  if (lines.empty()) problems.add(0, "", "is empty", "give a header line and a year of rows");
  problems.throw_if_any();
  const Layout layout = find_columns(lines.front(), columns, problems);
  problems.throw_if_any();
  std::vector<Row> rows = read_rows(lines, layout, problems);
  problems.throw_if_any();
  const long step_h = find_step(rows, problems);
  problems.throw_if_any();
  to_rates(rows, layout, step_h, problems);
  problems.throw_if_any();
  Year year = place_in_year(rows, layout, step_h);
  check_wanted(year, problems);
  bridge_gaps(year, layout, problems);
  problems.throw_if_any();
  return year;
}

}  // namespace stillheap::weather::csv
