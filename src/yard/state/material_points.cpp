#include "yard/state/material_points.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::yard {
namespace {

double half_length_m(const vessel::Design& design) noexcept { return 0.5 * vessel::across_m(design); }
double half_width_m(const vessel::Design& design) noexcept { return 0.5 * vessel::deep_m(design); }

double to_wall_m(const vessel::Design& design, Point plan) noexcept {
  if (design.footprint == vessel::Footprint::round) return 0.5 * design.diameter_m - std::hypot(plan.x_m, plan.y_m);
  return std::min(half_length_m(design) - std::abs(plan.x_m), half_width_m(design) - std::abs(plan.y_m));
}

Point at_angle(double radius_m, double angle_rad) {
  return {radius_m * std::cos(angle_rad), radius_m * std::sin(angle_rad)};
}

constexpr int angles_tried = 72;  // every 5 deg

}  // namespace

double to_face_m(const vessel::Design& design, Point plan, double height_m) noexcept {
  double nearest_m = std::min({to_wall_m(design, plan), height_m, design.fill_height_m - height_m});
  for (const vessel::Channel& channel : design.channels) {
    nearest_m = std::min(nearest_m, distance_m(plan, channel.centre) - 0.5 * channel.diameter_m);
  }
  return nearest_m;
}

std::vector<insight::MaterialPoint> material_points(const vessel::Design& design, int pieces) {
  const double volume_m3 = 4.0 * half_length_m(design) * half_width_m(design) * design.fill_height_m;
  std::vector<insight::MaterialPoint> points;
  if (!(volume_m3 > 0.0) || pieces < 1) return points;
  const double side_m = std::cbrt(volume_m3 / pieces);
  const auto count = [&](double length_m) { return std::max(1, static_cast<int>(std::lround(length_m / side_m))); };
  const int along = count(2.0 * half_length_m(design));
  const int across = count(2.0 * half_width_m(design));
  const int up = count(design.fill_height_m);
  for (int i = 0; i < along; ++i) {
    for (int j = 0; j < across; ++j) {
      const Point plan{half_length_m(design) * ((2.0 * i + 1.0) / along - 1.0),
                       half_width_m(design) * ((2.0 * j + 1.0) / across - 1.0)};
      for (int k = 0; k < up; ++k) {
        const double height_m = design.fill_height_m * (k + 0.5) / up;
        const double face_m = to_face_m(design, plan, height_m);
        if (face_m > 0.0) points.push_back({plan, height_m, face_m});
      }
    }
  }
  return points;
}

std::optional<insight::ProbePoint> probe_point(const vessel::Design& design, const insight::Spot& spot) {
  if (!spot.radius_m || (!spot.depth_m && !spot.height_m)) return std::nullopt;
  const double height_m = spot.height_m ? *spot.height_m : design.fill_height_m - *spot.depth_m;
  insight::ProbePoint deepest{{}, height_m, -1.0};
  const auto look = [&](double angle_rad) {
    const Point plan = at_angle(*spot.radius_m, angle_rad);
    const double face_m = to_face_m(design, plan, height_m);
    if (face_m > deepest.to_face_m) deepest = {plan, height_m, face_m};
  };
  if (spot.angle_rad) {
    look(*spot.angle_rad);
  } else {
    for (int i = 0; i < angles_tried; ++i) look(2.0 * constant::pi * i / angles_tried);
  }
  if (deepest.to_face_m < 0.0) return std::nullopt;
  return deepest;
}

}  // namespace stillheap::yard
