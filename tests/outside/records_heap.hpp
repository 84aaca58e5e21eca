#pragma once
#include <toml++/toml.h>

#include <array>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "domain/material/blend.hpp"
#include "model/forecast/request.hpp"

/// A published record (tests/outside/records/*.toml) as a forecast request. Everything comes from the file.
namespace stillheap::records {

/// What to take from a run, for one measured value.
struct Compare {
  std::string key;      ///< in ../records.toml under the record's id
  std::string measure;  ///< see records_run.hpp
  std::string of;       ///< which temperature, where it matters: see `temperature` in records_run.hpp
  double day = 0.0;
  double until_day = 1e9;
  double celsius = 0.0;
  std::string miss;  ///< why it is off, where it is known to be
};

/// Flow resistance of a bare face: next to nothing (the forecast takes no 0).
inline constexpr double bare_pa_s_m = 1.0;

struct Record {
  std::string id, title;
  forecast::Request request;
  bool cloth = true;
  /// What the record does not print, drawn: standard deviations of the logarithm of all lengths and of the dry density,
  /// and of the moisture, wet basis. Never below what a maker's own heap is drawn with.
  double unknown_size = 0.0, unknown_density = 0.0, unknown_moisture = 0.0;
  std::vector<Compare> compare;
};

template <class Value>
Value need(const toml::table& table, const char* key) {
  const std::optional<Value> value = table[key].value<Value>();
  if (!value) throw std::runtime_error(std::string("record lacks ") + key);
  return *value;
}

inline std::array<double, 12> months(const toml::table& table, const char* key, double factor = 1.0) {
  const toml::array* values = table[key].as_array();
  if (values == nullptr || values->size() != 12) throw std::runtime_error(std::string("record needs twelve ") + key);
  std::array<double, 12> out{};
  for (std::size_t m = 0; m < 12; ++m) out[m] = factor * values->get(m)->value_or(0.0);
  return out;
}

inline vessel::Design design_of(const toml::table& heap) {
  vessel::Design design;
  design.height_m = design.fill_height_m = need<double>(heap, "height_m");
  if (heap.contains("diameter_m")) {
    design.diameter_m = need<double>(heap, "diameter_m");
  } else {
    design.footprint = vessel::Footprint::rectangular;
    design.length_m = need<double>(heap, "length_m");
    design.width_m = need<double>(heap, "width_m");
  }
  design.wall = need<std::string>(heap, "wall") == "open" ? vessel::Wall::open : vessel::Wall::closed;
  design.base_open = need<bool>(heap, "base_open");
  design.base_gap_m = heap["base_gap_m"].value_or(0.0);
  if (const double across = heap["middle_channel_m"].value_or(0.0); across > 0.0)
    design.channels = {{{0.0, 0.0}, across}};
  return design;
}

/// A typical feedstock, or one of the record's own made from the nearest typical one.
inline material::Feedstock feedstock_of(const toml::table& record, const std::string& id) {
  if (const toml::array* owns = record["own"].as_array())
    for (const toml::node& node : *owns) {
      const toml::table& own = *node.as_table();
      if (need<std::string>(own, "id") != id) continue;
      material::Feedstock feedstock = material::find_typical(need<std::string>(own, "like")).value();
      feedstock.id = id;
      feedstock.moisture_wet = need<double>(own, "moisture_wet");
      feedstock.carbon_dry = need<double>(own, "carbon_dry");
      feedstock.nitrogen_dry = need<double>(own, "nitrogen_dry");
      feedstock.ash_dry = need<double>(own, "ash_dry");
      feedstock.bulk_density_kg_m3 = need<double>(own, "bulk_density_kg_m3");
      for (std::size_t p = 0; p < material::pool_count && own.contains("pool_share_of_volatile"); ++p)
        feedstock.pool_dry[p] =
            (1.0 - feedstock.ash_dry) * own["pool_share_of_volatile"].as_array()->get(p)->value_or(0.0);
      return feedstock;
    }
  return material::find_typical(id).value();
}

inline material::Blend blend_of(const toml::table& record) {
  const toml::table& wanted = *record["blend"].as_table();
  std::vector<material::Part> parts;
  for (const toml::node& node : *wanted["parts"].as_array()) {
    const toml::table& part = *node.as_table();
    const material::Feedstock feedstock = feedstock_of(record, need<std::string>(part, "feedstock"));
    parts.push_back({feedstock, need<double>(part, "dry_share") / (1.0 - feedstock.moisture_wet)});
  }
  material::Blend blend = material::mix(parts);
  if (wanted.contains("moisture_wet")) blend = material::at_moisture(blend, need<double>(wanted, "moisture_wet"));
  if (wanted.contains("dry_density_kg_m3")) {
    blend.bulk_density_kg_m3 = need<double>(wanted, "dry_density_kg_m3") / (1.0 - blend.moisture_wet);
    blend.volume_m3 = blend.mass_wet_kg / blend.bulk_density_kg_m3;
    blend.free_air_space = material::free_air_space(blend.bulk_density_kg_m3, blend.moisture_wet, blend.ash_dry);
  }
  return blend;
}

inline double mean_air_c(const weather::Series& series, int first_day, int days) {
  double sum = 0.0;
  for (int hour = 0; hour < 24 * days; ++hour)
    sum += weather::at(series, 3600.0 * (24.0 * (first_day - 1) + hour)).air_c;
  return sum / (24.0 * days);
}

inline weather::Series weather_of(const toml::table& normals, int first_day, int days) {
  constexpr double degree = std::numbers::pi / 180.0;
  const weather::Place place{need<double>(normals, "latitude_deg") * degree,
                             need<double>(normals, "longitude_deg") * degree, need<double>(normals, "elevation_m")};
  weather::Monthly monthly{months(normals, "low_c"),    months(normals, "high_c"),
                           months(normals, "humidity"), months(normals, "sun_mj_m2_day", 1e6),
                           months(normals, "wind_m_s"), months(normals, "rain_mm_month", 1e-3)};
  weather::Series series = weather::from_monthly(monthly, place);
  if (!normals.contains("shift_to_mean_c")) return series;
  const double shift = need<double>(normals, "shift_to_mean_c") - mean_air_c(series, first_day, days);
  for (std::size_t m = 0; m < 12; ++m) monthly.low_c[m] += shift, monthly.high_c[m] += shift;
  return weather::from_monthly(monthly, place);
}

inline std::vector<Compare> comparisons_of(const toml::table& record) {
  std::vector<Compare> out;
  for (const toml::node& node : *record["compare"].as_array()) {
    const toml::table& c = *node.as_table();
    out.push_back({need<std::string>(c, "key"), need<std::string>(c, "measure"), c["of"].value_or(std::string{}),
                   c["day"].value_or(0.0), c["until_day"].value_or(1e9), c["celsius"].value_or(0.0),
                   c["miss"].value_or(std::string{})});
  }
  return out;
}

inline Record read_record(const std::string& file) {
  const toml::table table = toml::parse_file(file);
  const toml::table& heap = *table["heap"].as_table();
  const toml::table& fill = *table["fill"].as_table();
  Record record;
  record.id = need<std::string>(table, "id");
  record.title = need<std::string>(table, "title");
  record.cloth = need<bool>(heap, "cloth");
  forecast::Request& request = record.request;
  request.design = design_of(heap);
  request.blend = blend_of(table);
  request.start_day_of_year = static_cast<int>(need<std::int64_t>(fill, "day_of_year"));
  request.fill_temperature_c = need<double>(fill, "temperature_c");
  request.days = static_cast<int>(need<std::int64_t>(fill, "days"));
  request.weather = weather_of(*table["weather"].as_table(), request.start_day_of_year, request.days);
  request.sprinkling.automatic = false;
  request.sprinkling.most_kg_day = 0.0;
  if (!record.cloth)
    request.surfaces.lining_flow_resistance_pa_s_m = request.surfaces.cover_flow_resistance_pa_s_m = bare_pa_s_m;
  record.unknown_size = table["unknown"]["size"].value_or(0.0);
  record.unknown_density = table["unknown"]["density"].value_or(0.0);
  record.unknown_moisture = table["unknown"]["moisture"].value_or(0.0);
  record.compare = comparisons_of(table);
  return record;
}

}  // namespace stillheap::records
