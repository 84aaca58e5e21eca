#include "yard/record/csv_mapping.hpp"

#include <functional>
#include <nlohmann/json.hpp>
#include <set>

#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/json/strict.hpp"
#include "core/quantity/quantity.hpp"

namespace stillheap::record {
namespace {

using nlohmann::json;

constexpr const char* probe_form = "write it as \"T1=temperature,degF,place:core,depth:18 in\"";

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(at, begin), text.size());
    parts.push_back(trimmed(text.substr(begin, end - begin)));
    begin = end + 1;
  }
  return parts;
}

std::string measure_names() {
  std::string names;
  for (const MeasureInfo& one : measures()) names += (names.empty() ? "" : ", ") + std::string(one.key);
  return names;
}

void set_part(CsvProbe& probe, std::string_view key, std::string_view value, std::string_view where) {
  Place& place = probe.place;
  if (key == "place") {
    place.name = value;
  } else if (key == "depth") {
    place.depth_m = quantity::parse(value, Dimension::length, where);
  } else if (key == "height") {
    place.height_m = quantity::parse(value, Dimension::length, where);
  } else if (key == "radius") {
    place.radius_m = quantity::parse(value, Dimension::length, where);
  } else if (key == "angle") {
    place.angle_rad = quantity::parse(value, Dimension::angle, where);
  } else if (key == "probe") {
    probe.probe = value;
  } else {
    throw InputError(std::string(where), "\"" + std::string(key) + "\" is no part of a place",
                     "use place, depth, height, radius, angle or probe");
  }
}

json place_json(const Place& place) {
  json one = json::object();
  if (!place.name.empty()) one["name"] = place.name;
  if (place.angle_rad) one["angle_rad"] = *place.angle_rad;
  if (place.radius_m) one["radius_m"] = *place.radius_m;
  if (place.depth_m) one["depth_m"] = *place.depth_m;
  if (place.height_m) one["height_m"] = *place.height_m;
  return one;
}

void refuse_unknown(const json& object, const std::set<std::string>& keys) {
  if (!object.is_object()) throw std::invalid_argument("an object is missing");
  for (const auto& item : object.items()) {
    if (keys.count(item.key()) == 0) throw std::invalid_argument("unknown key \"" + item.key() + "\"");
  }
}

std::optional<double> maybe(const json& object, const char* key) {
  if (!object.contains(key)) return std::nullopt;
  return object.at(key).get<double>();
}

CsvProbe probe_from(const json& object) {
  refuse_unknown(object, {"column", "measure", "unit", "place", "probe"});
  CsvProbe probe;
  probe.column = object.at("column").get<std::string>();
  const auto measure = measure_of(object.at("measure").get<std::string>());
  if (!measure) throw std::invalid_argument("measure is none of " + measure_names());
  probe.measure = *measure;
  probe.unit = object.at("unit").get<std::string>();
  probe.probe = object.value("probe", std::string{});
  const json place = object.value("place", json::object());
  refuse_unknown(place, {"name", "angle_rad", "radius_m", "depth_m", "height_m"});
  probe.place = {place.value("name", std::string{}), maybe(place, "angle_rad"), maybe(place, "radius_m"),
                 maybe(place, "depth_m"), maybe(place, "height_m")};
  return probe;
}

CsvMapping mapping_from(const json& object) {
  refuse_unknown(object, {"time", "date", "pattern", "zone", "delimiter", "decimal_comma", "header_line",
                          "probe_column", "no_value", "probes"});
  CsvMapping mapping;
  mapping.time = object.at("time").get<std::string>();
  mapping.date = object.value("date", mapping.date);
  mapping.pattern = object.value("pattern", mapping.pattern);
  mapping.zone = object.value("zone", mapping.zone);
  mapping.delimiter = object.value("delimiter", mapping.delimiter);
  mapping.decimal_comma = object.value("decimal_comma", mapping.decimal_comma);
  mapping.header_line = object.value("header_line", mapping.header_line);
  mapping.probe_column = object.value("probe_column", mapping.probe_column);
  mapping.no_value = object.value("no_value", mapping.no_value);
  for (const json& one : object.at("probes")) mapping.probes.push_back(probe_from(one));
  return mapping;
}

void check_unit(const CsvProbe& probe, const std::string& where, std::vector<Problem>& problems) {
  const MeasureInfo& about = info(probe.measure);
  if (!about.dimension) {
    if (probe.unit != "pH")
      problems.push_back({where, "unit \"" + probe.unit + "\" is no unit of acidity", "write pH"});
    return;
  }
  try {
    (void)quantity::parse("1 " + probe.unit, *about.dimension, where);
  } catch (const InputError& error) {
    problems.insert(problems.end(), error.problems().begin(), error.problems().end());
  }
}

}  // namespace

CsvProbe parse_probe(std::string_view text, std::string_view where) {
  const std::size_t equals = text.rfind('=');
  if (equals == std::string_view::npos) {
    throw InputError(std::string(where), "= \"" + std::string(text) + "\" has no \"=\"", probe_form);
  }
  CsvProbe probe;
  probe.column = trimmed(text.substr(0, equals));
  const std::vector<std::string_view> parts = split(text.substr(equals + 1), ',');
  const std::optional<Measure> measure = measure_of(parts.front());
  if (!measure) {
    throw InputError(std::string(where), "= \"" + std::string(text) + "\" names no measure",
                     "use one of " + measure_names());
  }
  probe.measure = *measure;
  if (parts.size() < 2) throw InputError(std::string(where), "= \"" + std::string(text) + "\" has no unit", probe_form);
  probe.unit = parts[1];
  for (std::size_t i = 2; i < parts.size(); ++i) {
    const std::size_t colon = parts[i].find(':');
    if (colon == std::string_view::npos) {
      throw InputError(std::string(where), "= \"" + std::string(parts[i]) + "\" has no \":\"", probe_form);
    }
    set_part(probe, trimmed(parts[i].substr(0, colon)), trimmed(parts[i].substr(colon + 1)), where);
  }
  return probe;
}

std::string to_json(const CsvMapping& mapping) {
  json probes = json::array();
  for (const CsvProbe& probe : mapping.probes) {
    json one = {{"column", probe.column}, {"measure", info(probe.measure).key}, {"unit", probe.unit}};
    one["place"] = place_json(probe.place);
    if (!probe.probe.empty()) one["probe"] = probe.probe;
    probes.push_back(one);
  }
  return json{{"time", mapping.time},
              {"date", mapping.date},
              {"pattern", mapping.pattern},
              {"zone", mapping.zone},
              {"delimiter", mapping.delimiter},
              {"decimal_comma", mapping.decimal_comma},
              {"header_line", mapping.header_line},
              {"probe_column", mapping.probe_column},
              {"no_value", mapping.no_value},
              {"probes", probes}}
      .dump();
}

CsvMapping mapping_from_json(std::string_view text, std::string_view where) {
  strict_json::check(text, std::string(where), "see docs/records.md");
  try {
    CsvMapping mapping = mapping_from(json::parse(text));
    check(mapping, where);
    return mapping;
  } catch (const json::exception& error) {
    throw InputError(std::string(where), std::string("is no mapping: ") + error.what(), "see docs/records.md");
  } catch (const std::invalid_argument& error) {
    throw InputError(std::string(where), std::string("is no mapping: ") + error.what(), "see docs/records.md");
  }
}

void check(const CsvMapping& mapping, std::string_view where) {
  std::vector<Problem> problems;
  const std::string at(where);
  if (mapping.time.empty()) problems.push_back({at + ": time", "is missing", "name the column that holds the time"});
  if (mapping.probes.empty()) problems.push_back({at + ": probes", "are missing", probe_form});
  if (!is_zone(mapping.zone)) {
    problems.push_back({at + ": zone", "= \"" + mapping.zone + "\" is not known",
                        "give an IANA zone (\"Europe/Paris\") or an offset (\"+02:00\")"});
  }
  if (mapping.header_line < 1 || mapping.header_line > 1000) {
    problems.push_back({at + ": header line", "= " + std::to_string(mapping.header_line), "give 1 to 1000"});
  }
  if (mapping.delimiter.size() > 1) problems.push_back({at + ": delimiter", "is no single sign", "give one sign"});
  for (const CsvProbe& probe : mapping.probes) {
    const std::string here = at + ": probe \"" + probe.column + "\"";
    if (probe.column.empty()) problems.push_back({here, "names no column", probe_form});
    if (!probe.probe.empty() && mapping.probe_column.empty()) {
      problems.push_back({here, "is told apart by a column that is not named", "name the column that names the probe"});
    }
    check_unit(probe, here, problems);
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

}  // namespace stillheap::record
