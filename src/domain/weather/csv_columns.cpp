#include "domain/weather/csv_columns.hpp"

#include <algorithm>
#include <optional>

#include "core/base/header_unit.hpp"

namespace stillheap::weather::csv {
namespace {

// Exact by definition: inch 25.4 mm, mile 1609.344 m, knot 1852 m/h, foot 0.3048 m; degF after NIST SP 811.
// Kept here and not in the quantity folder, since these are marks of a file format and include amounts "per row".
const std::vector<Unit> temperatures{{"degC", 1.0, 0.0, false},
                                     {"C", 1.0, 0.0, false},
                                     {"\xC2\xB0"
                                      "C",
                                      1.0, 0.0, false},
                                     {"degF", 5.0 / 9.0, -160.0 / 9.0, false},
                                     {"F", 5.0 / 9.0, -160.0 / 9.0, false},
                                     {"\xC2\xB0"
                                      "F",
                                      5.0 / 9.0, -160.0 / 9.0, false},
                                     {"K", 1.0, -273.15, false}};
const std::vector<Unit> shares{{"%", 0.01, 0.0, false}, {"1", 1.0, 0.0, false}};
const std::vector<Unit> speeds{{"m/s", 1.0, 0.0, false},
                               {"km/h", 1.0 / 3.6, 0.0, false},
                               {"mph", 0.44704, 0.0, false},
                               {"kn", 1852.0 / 3600.0, 0.0, false},
                               {"ft/s", 0.3048, 0.0, false}};
const std::vector<Unit> radiations{
    {"W/m2", 1.0, 0.0, false}, {"Wh/m2", 3600.0, 0.0, true},           {"kWh/m2", 3.6e6, 0.0, true},
    {"MJ/m2", 1e6, 0.0, true}, {"MJ/m2/d", 1e6 / 86400.0, 0.0, false}, {"J/cm2", 1e4, 0.0, true}};
const std::vector<Unit> depths{
    {"mm", 1e-3, 0.0, true}, {"cm", 1e-2, 0.0, true}, {"in", 0.0254, 0.0, true}, {"mm/h", 1e-3 / 3600.0, 0.0, false}};

const std::array<Quantity, kinds> quantities{{
    {"air", -70.0, 70.0, "-70 to 70 degC", temperatures},
    {"low", -70.0, 70.0, "-70 to 70 degC", temperatures},
    {"high", -70.0, 70.0, "-70 to 70 degC", temperatures},
    {"humidity", 0.0, 1.10, "0 to 110 %", shares},
    {"wind", 0.0, 60.0, "0 to 60 m/s", speeds},
    {"sun", -20.0, 1500.0, "-20 (a dark sensor) to 1500 W/m2", radiations},
    {"rain", 0.0, 0.5 / 3600.0, "0 to 500 mm an hour", depths},
}};

/// "Tair [degF]" -> "Tair", "degF"
struct Label {
  std::string name, unit;
};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

Label label_of(const std::string& text) {
  const std::size_t open = text.rfind('[');
  if (open == std::string::npos || text.back() != ']') return {trimmed(text), {}};
  return {trimmed(text.substr(0, open)), trimmed(text.substr(open + 1, text.size() - open - 2))};
}

std::optional<std::size_t> find(const std::vector<std::string>& headers, const std::string& wanted) {
  for (std::size_t field = 0; field < headers.size(); ++field) {
    if (headers[field] == wanted || label_of(headers[field]).name == label_of(wanted).name) return field;
  }
  return std::nullopt;
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "\"" : ", \"") + name + "\"";
  return text;
}

std::string listed(const std::vector<Unit>& units) {
  std::vector<std::string> names(units.size());
  std::transform(units.begin(), units.end(), names.begin(), [](const Unit& unit) { return unit.name; });
  return listed(names);
}

/// The unit a header names when it is a known one and not the one that is wanted; empty when the two agree or one is
/// silent.
std::string other_unit(const std::string& header, const std::string& wanted, const std::vector<Unit>& units) {
  const auto find_unit = [&](const std::string& name) {
    return std::find_if(units.begin(), units.end(), [&](const Unit& one) { return name == one.name; });
  };
  const auto asked = find_unit(wanted);
  if (asked == units.end()) return {};
  const std::string named = header_unit(header);
  const auto said = find_unit(named);
  if (said == units.end()) return {};
  const bool same = said->scale == asked->scale && said->offset == asked->offset && said->per_step == asked->per_step;
  return same ? std::string{} : named;
}

Column find_column(const std::vector<std::string>& headers, const std::string& wanted, const Quantity& quantity,
                   FileProblems& problems) {
  Column column;
  if (wanted.empty()) return column;
  const std::optional<std::size_t> field = find(headers, wanted);
  if (!field) {
    problems.add(1, quantity.key, "no column \"" + wanted + "\"", "the file has " + listed(headers));
    return column;
  }
  column.field = *field;
  column.header = headers[*field];
  const std::string wanted_unit = label_of(wanted).unit;
  const std::string other = other_unit(column.header, wanted_unit, quantity.units);
  if (!other.empty()) {
    problems.add(1, column.header, "is in " + other + ", but the site file reads it as " + wanted_unit,
                 "write the column in the site file as its header stands, or with [" + other + "]");
    return column;
  }
  const std::string unit = wanted_unit.empty() ? label_of(column.header).unit : wanted_unit;
  const auto known =
      std::find_if(quantity.units.begin(), quantity.units.end(), [&](const Unit& one) { return unit == one.name; });
  if (known == quantity.units.end()) {
    problems.add(1, column.header, unit.empty() ? "has no unit" : "unit \"" + unit + "\" is not known",
                 "write it in square brackets behind the name, one of " + listed(quantity.units));
    return column;
  }
  column.unit = *known;
  column.present = true;
  return column;
}

}  // namespace

const Quantity& quantity_of(Kind kind) { return quantities[kind]; }

Layout find_columns(const std::string& header, const CsvColumns& wanted, FileProblems& problems) {
  Layout layout;
  layout.delimiter = delimiter_of(header);
  const std::vector<std::string> headers = split_record(header, layout.delimiter).value_or(std::vector<std::string>{});
  const std::optional<std::size_t> time = wanted.time.empty() ? std::nullopt : find(headers, wanted.time);
  if (!time) problems.add(1, "time", "no column \"" + wanted.time + "\"", "the file has " + listed(headers));
  layout.time_field = time.value_or(0);
  const std::array<const std::string*, kinds> names{&wanted.air,  &wanted.low, &wanted.high, &wanted.humidity,
                                                    &wanted.wind, &wanted.sun, &wanted.rain};
  for (std::size_t kind = 0; kind < kinds; ++kind) {
    layout.columns[kind] = find_column(headers, *names[kind], quantities[kind], problems);
  }
  return layout;
}

}  // namespace stillheap::weather::csv
