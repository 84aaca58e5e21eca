#include "domain/vessel/design.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

double disc_area_m2(double diameter_m) noexcept { return constant::pi / 4.0 * diameter_m * diameter_m; }

}  // namespace

double ring_diameter_m(double panel_length_m) noexcept { return panel_length_m / constant::pi; }

std::vector<Channel> ring_channels(const Ring& ring, double diameter_m, bool centre) {
  std::vector<Channel> channels;
  if (centre) channels.push_back({{0.0, 0.0}, diameter_m});
  for (int i = 0; i < ring.count; ++i) {
    const double angle = ring.first_angle_rad + 2.0 * constant::pi * i / ring.count;
    channels.push_back({{ring.radius_m * std::cos(angle), ring.radius_m * std::sin(angle)}, diameter_m});
  }
  return channels;
}

double ring_radius_inside_hoop_m(double hoop_diameter_m, double pipe_diameter_m) noexcept {
  return (hoop_diameter_m - pipe_diameter_m) / 2.0;
}

double across_m(const Design& design) noexcept {
  return design.footprint == Footprint::round ? design.diameter_m : design.length_m;
}

double deep_m(const Design& design) noexcept {
  return design.footprint == Footprint::round ? design.diameter_m : design.width_m;
}

double perimeter_m(const Design& design) noexcept {
  return design.footprint == Footprint::round ? constant::pi * design.diameter_m
                                              : 2.0 * (design.length_m + design.width_m);
}

double footprint_area_m2(const Design& design) noexcept {
  return design.footprint == Footprint::round ? disc_area_m2(design.diameter_m) : design.length_m * design.width_m;
}

double material_area_m2(const Design& design) noexcept {
  double area = footprint_area_m2(design);
  for (const Channel& channel : design.channels) area -= disc_area_m2(channel.diameter_m);
  return std::max(area, 0.0);
}

double material_volume_m3(const Design& design) noexcept { return material_area_m2(design) * design.fill_height_m; }

}  // namespace stillheap::vessel
