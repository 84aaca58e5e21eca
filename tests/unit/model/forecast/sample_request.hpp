#pragma once
#include <array>
#include <numbers>
#include <string_view>
#include <utility>
#include <vector>

#include "../../domain/weather/normals.hpp"
#include "domain/material/blend.hpp"
#include "domain/material/feedstock.hpp"
#include "domain/vessel/design.hpp"
#include "model/forecast/request.hpp"

/// Requests that several tests start from. All invented.
namespace stillheap::forecast {

/// Feedstocks by share of loose volume, soaked.
inline material::Blend blend_of(const std::vector<std::pair<std::string_view, double>>& volumes, double moisture_wet) {
  std::vector<material::Part> parts;
  for (const auto& [id, volume] : volumes) {
    const material::Feedstock feedstock = material::find_typical(id).value();
    parts.push_back({feedstock, volume * feedstock.bulk_density_kg_m3});
  }
  return material::at_moisture(material::mix(parts), moisture_wet);
}

inline material::Blend active_blend() {
  return blend_of({{"wood-chips", 0.2}, {"leaves", 0.27}, {"horse-manure", 0.53}}, 0.65);
}

/// The common round vessel: five channels in a ring and one in the middle.
inline vessel::Design common_round() {
  vessel::Design design;
  design.diameter_m = 1.213;
  design.height_m = 1.524;
  design.fill_height_m = 1.473;
  design.base_gap_m = 0.089;
  design.channels = vessel::ring_channels({5, 0.305, 0.0}, 0.1016, true);
  return design;
}

inline Request common_request(int days) {
  Request request;
  request.design = common_round();
  request.blend = active_blend();
  request.weather = weather::from_monthly(weather::test_normals(), weather::test_place());
  request.start_day_of_year = 110;
  request.days = days;
  request.grid = Grid::draft;
  request.members = 0;
  return request;
}

inline Request draft_weather(Request request) {
  request.weather = weather::daily_means(request.weather);
  return request;
}

/// Bare material: one pool, no salt, nothing that a transport test has to undo.
inline Request plain_request(const vessel::Design& design) {
  Request request;
  request.design = design;
  request.blend.bulk_density_kg_m3 = 500.0;
  request.blend.moisture_wet = 0.6;
  request.blend.ash_dry = 0.1;
  request.blend.pool_dry = {0.5, 0.0, 0.0};
  request.blend.pool_rate_20c_per_s = {1e-7, 0.0, 0.0};
  request.fill_temperature_c = 20.0;
  return request;
}

inline vessel::Design plain_round(double diameter_m, double height_m) {
  vessel::Design design;
  design.diameter_m = diameter_m;
  design.height_m = design.fill_height_m = height_m;
  return design;
}

inline vessel::Design plain_box(double length_m, double width_m, double height_m) {
  vessel::Design design;
  design.footprint = vessel::Footprint::rectangular;
  design.length_m = length_m;
  design.width_m = width_m;
  design.height_m = design.fill_height_m = height_m;
  return design;
}

}  // namespace stillheap::forecast
