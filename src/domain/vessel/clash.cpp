#include "domain/vessel/clash.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

// Rounding of coordinates must not refuse a ring of exactly the largest radius: a nanometre of grace.
constexpr double grace_m = 1e-9;

double gap_to_wall_m(const Design& design, const Channel& channel) {
  const double radius = channel.diameter_m / 2.0;
  if (design.footprint == Footprint::round) return design.diameter_m / 2.0 - distance_m(channel.centre, {}) - radius;
  return std::min(design.length_m / 2.0 - std::abs(channel.centre.x_m),
                  design.width_m / 2.0 - std::abs(channel.centre.y_m)) -
         radius;
}

double cross(Point a, Point b) noexcept { return a.x_m * b.y_m - a.y_m * b.x_m; }
double dot(Point a, Point b) noexcept { return a.x_m * b.x_m + a.y_m * b.y_m; }
Point along(Point a, Point b, double t) noexcept { return {a.x_m + t * (b.x_m - a.x_m), a.y_m + t * (b.y_m - a.y_m)}; }

/// Signed area of the triangle (origin, a, b) cut with a disc about the origin: a sector where the edge
/// runs outside, a triangle where it runs inside.
double triangle_in_disc_m2(Point a, Point b, double radius) {
  const auto sector = [radius](Point from, Point to) {
    return 0.5 * radius * radius * std::atan2(cross(from, to), dot(from, to));
  };
  const Point step{b.x_m - a.x_m, b.y_m - a.y_m};
  const double length2 = dot(step, step);
  if (length2 <= 0.0) return 0.0;
  const double middle = -dot(a, step) / length2;
  const double root = middle * middle - (dot(a, a) - radius * radius) / length2;
  if (root <= 0.0) return sector(a, b);
  const double enter = std::clamp(middle - std::sqrt(root), 0.0, 1.0);
  const double leave = std::clamp(middle + std::sqrt(root), 0.0, 1.0);
  const Point in = along(a, b, enter);
  const Point out = along(a, b, leave);
  return sector(a, in) + 0.5 * cross(in, out) + sector(out, b);
}

double distance_to_axis_m(Point p, const Slat& slat) {
  const Point step{slat.to.x_m - slat.from.x_m, slat.to.y_m - slat.from.y_m};
  const Point rel{p.x_m - slat.from.x_m, p.y_m - slat.from.y_m};
  const double length2 = dot(step, step);
  const double t = length2 > 0.0 ? std::clamp(dot(rel, step) / length2, 0.0, 1.0) : 0.0;
  return distance_m(p, along(slat.from, slat.to, t));
}

Clash bearer_clash(const Design& design, std::size_t channel, std::size_t bearer, double covered_m2) {
  const Channel& hole = design.channels[channel];
  Clash clash{ClashKind::channel_and_bearer, channel, bearer};
  clash.gap_m = distance_to_axis_m(hole.centre, design.bearers[bearer]) -
                (hole.diameter_m + design.bearers[bearer].width_m) / 2.0;
  clash.overlap_m = std::max(-clash.gap_m, 0.0);
  clash.covered_share = covered_m2 / (constant::pi / 4.0 * hole.diameter_m * hole.diameter_m);
  clash.refused = false;
  return clash;
}

std::string millimetres(double length_m) {
  char text[32];
  // Less than half a millimetre still clashes: say so rather than "0 mm".
  if (length_m < 0.0005) return "less than 1 mm";
  std::snprintf(text, sizeof text, "%.0f mm", length_m * 1000.0);
  return text;
}

std::string percent(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.0f %%", std::max(share * 100.0, 1.0));
  return text;
}

void add_channel_clashes(const Design& design, std::size_t i, double least_gap_m, std::vector<Clash>& clashes) {
  const Channel& channel = design.channels[i];
  const auto check = [&](ClashKind kind, std::size_t other, double gap) {
    if (gap < least_gap_m - grace_m) clashes.push_back({kind, i, other, least_gap_m - gap, gap});
  };
  check(ClashKind::channel_and_wall, 0, gap_to_wall_m(design, channel));
  for (std::size_t j = i + 1; j < design.channels.size(); ++j) {
    const Channel& other = design.channels[j];
    check(ClashKind::channel_and_channel, j,
          distance_m(channel.centre, other.centre) - (channel.diameter_m + other.diameter_m) / 2.0);
  }
}

}  // namespace

double covered_area_m2(const Channel& channel, const Slat& slat) noexcept {
  const Point step{slat.to.x_m - slat.from.x_m, slat.to.y_m - slat.from.y_m};
  const double length = std::hypot(step.x_m, step.y_m);
  if (length <= 0.0) return 0.0;
  const Point side{-step.y_m / length * slat.width_m / 2.0, step.x_m / length * slat.width_m / 2.0};
  const auto corner = [&](Point end, double sign) {
    return Point{end.x_m + sign * side.x_m - channel.centre.x_m, end.y_m + sign * side.y_m - channel.centre.y_m};
  };
  const std::array<Point, 4> corners{corner(slat.from, -1.0), corner(slat.to, -1.0), corner(slat.to, 1.0),
                                     corner(slat.from, 1.0)};
  double area = 0.0;
  for (std::size_t i = 0; i < 4; ++i)
    area += triangle_in_disc_m2(corners[i], corners[(i + 1) % 4], channel.diameter_m / 2.0);
  return std::max(area, 0.0);
}

std::vector<Clash> find_clashes(const Design& design, double least_gap_m) {
  std::vector<Clash> clashes;
  for (std::size_t i = 0; i < design.channels.size(); ++i) {
    add_channel_clashes(design, i, least_gap_m, clashes);
    if (!design.base_open) continue;
    for (std::size_t j = 0; j < design.bearers.size(); ++j) {
      const double covered = covered_area_m2(design.channels[i], design.bearers[j]);
      if (covered > grace_m) clashes.push_back(bearer_clash(design, i, j, covered));
    }
  }
  return clashes;
}

std::string describe(const Clash& clash, const LengthWords& words) {
  const LengthWords length = words ? words : LengthWords(millimetres);
  const std::string channel = "channel " + std::to_string(clash.channel + 1);
  const std::string other = std::to_string(clash.other + 1);
  const bool touching = clash.gap_m < 0.0;
  const std::string gap = length(std::abs(clash.gap_m));
  const std::string wanted = length(clash.gap_m + clash.overlap_m);
  switch (clash.kind) {
    case ClashKind::channel_and_wall:
      if (touching) return channel + " stands " + gap + " into the wall";
      return channel + " leaves " + gap + " of material to the wall, wanted is " + wanted;
    case ClashKind::channel_and_channel:
      if (touching) return channel + " stands " + gap + " into channel " + other;
      return channel + " leaves " + gap + " of material to channel " + other + ", wanted is " + wanted;
    case ClashKind::channel_and_bearer:
      break;
  }
  return channel + " stands over bearer " + other + ", which covers " + percent(clash.covered_share) + " of its mouth";
}

double largest_ring_radius_m(double vessel_diameter_m, double channel_diameter_m, double least_gap_m) {
  return std::max((vessel_diameter_m - channel_diameter_m) / 2.0 - least_gap_m, 0.0);
}

}  // namespace stillheap::vessel
