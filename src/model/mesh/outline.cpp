#include "model/mesh/outline.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::mesh {
namespace {

using constant::pi;

constexpr double same_place_m = 1e-7;

Point polar(double radius_m, double angle_rad) {
  return {radius_m * std::cos(angle_rad), radius_m * std::sin(angle_rad)};
}

/// Adds points and segments, joining points that coincide.
class Sketch {
 public:
  int point(Point p) {
    for (std::size_t i = 0; i < outline_.points.size(); ++i)
      if (distance_m(outline_.points[i], p) < same_place_m) return static_cast<int>(i);
    outline_.points.push_back(p);
    return static_cast<int>(outline_.points.size()) - 1;
  }

  void line(Point from, Point to, double step_m) {
    const int pieces = std::max(1, static_cast<int>(std::ceil(distance_m(from, to) / step_m - 1e-9)));
    int last = point(from);
    for (int k = 1; k <= pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      const int next = point({from.x_m + t * (to.x_m - from.x_m), from.y_m + t * (to.y_m - from.y_m)});
      outline_.segments.push_back({last, next});
      last = next;
    }
  }

  /// A circular arc as chords; the radius is widened so that the polygon keeps the circle's area.
  void arc(Point centre, double radius_m, double from_rad, double turn_rad, double step_m, int least) {
    const int pieces = std::max(least, static_cast<int>(std::ceil(radius_m * turn_rad / step_m - 1e-9)));
    const double widened_m = equal_area_radius_m(radius_m, turn_rad / pieces);
    int last = -1;
    for (int k = 0; k <= pieces; ++k) {
      const Point d = polar(widened_m, from_rad + turn_rad * k / pieces);
      const int next = point({centre.x_m + d.x_m, centre.y_m + d.y_m});
      if (last >= 0 && last != next) outline_.segments.push_back({last, next});
      last = next;
    }
  }

  static double equal_area_radius_m(double radius_m, double chord_rad) {
    return radius_m * std::sqrt(chord_rad / std::sin(chord_rad));
  }

  void hole(Point p) { outline_.holes.push_back(p); }
  [[nodiscard]] Outline take() { return std::move(outline_); }

 private:
  Outline outline_;
};

double angle_from(Point p, double start_rad) {
  const double turn = std::atan2(p.y_m, p.x_m) - start_rad;
  return turn - 2.0 * pi * std::floor(turn / (2.0 * pi) + 1e-12);
}

/// Where the wall stands along a ray from the middle.
double wall_distance_m(const vessel::Design& design, double angle_rad) {
  const double c = std::abs(std::cos(angle_rad));
  const double s = std::abs(std::sin(angle_rad));
  const double along_x = c > 1e-12 ? 0.5 * design.length_m / c : 1e300;
  const double along_y = s > 1e-12 ? 0.5 * design.width_m / s : 1e300;
  return std::min(along_x, along_y);
}

std::vector<Point> rectangle_walk(const vessel::Design& design, const Sector& sector) {
  const double x = 0.5 * design.length_m;
  const double y = 0.5 * design.width_m;
  std::vector<Point> corners{{x, y}, {-x, y}, {-x, -y}, {x, -y}};
  if (sector.mirrors == 0) {
    corners.push_back(corners.front());
    return corners;
  }
  const double start = sector.first_angle_rad;
  const double end = start + sector.angle_rad();
  std::vector<Point> walk{polar(wall_distance_m(design, start), start)};
  std::sort(corners.begin(), corners.end(),
            [&](Point a, Point b) { return angle_from(a, start) < angle_from(b, start); });
  for (const Point& corner : corners) {
    if (angle_from(corner, start) > 1e-9 && angle_from(corner, start) < sector.angle_rad() - 1e-9)
      walk.push_back(corner);
  }
  walk.push_back(polar(wall_distance_m(design, end), end));
  return walk;
}

/// A stretch of a ray that a channel takes away, measured from the middle.
struct Gap {
  double from_m;
  double to_m;
};

/// Where a channel stands with regard to the sector.
enum class Stand { middle, first_ray, last_ray, inside, outside };

Stand stand_of(const vessel::Channel& channel, const Sector& sector) {
  const double from_middle_m = std::hypot(channel.centre.x_m, channel.centre.y_m);
  if (sector.mirrors == 0) return Stand::inside;
  if (from_middle_m < 1e-4) return Stand::middle;
  const double turn = angle_from(channel.centre, sector.first_angle_rad);
  const double near_rad = 1e-4 / from_middle_m;
  if (turn < near_rad || turn > 2.0 * pi - near_rad) return Stand::first_ray;
  if (std::abs(turn - sector.angle_rad()) < near_rad) return Stand::last_ray;
  return turn < sector.angle_rad() ? Stand::inside : Stand::outside;
}

int even(int pieces) { return pieces + pieces % 2; }

/// Draws one channel's rim and notes what it takes from the rays.
void draw_channel(const vessel::Channel& channel, const Sector& sector, double step_m, Sketch& sketch,
                  std::array<std::vector<Gap>, 2>& gaps) {
  const double radius_m = 0.5 * channel.diameter_m;
  const double start = sector.first_angle_rad;
  const double turn = sector.angle_rad();
  const double from_middle_m = std::hypot(channel.centre.x_m, channel.centre.y_m);
  const int least_half = 4;
  const int half = even(std::max(least_half, static_cast<int>(std::ceil(pi * radius_m / step_m))));
  switch (stand_of(channel, sector)) {
    case Stand::middle: {
      const int pieces = std::max(sector.mirrors == 1 ? 4 : 1, static_cast<int>(std::ceil(radius_m * turn / step_m)));
      sketch.arc({}, radius_m, start, turn, radius_m * turn / pieces, pieces);
      const double widened_m = Sketch::equal_area_radius_m(radius_m, turn / pieces);
      gaps[0].push_back({0.0, widened_m});
      gaps[1].push_back({0.0, widened_m});
      break;
    }
    case Stand::first_ray:
    case Stand::last_ray: {
      const bool first = stand_of(channel, sector) == Stand::first_ray;
      const double ray = first ? start : start + turn;
      const Point centre = polar(from_middle_m, ray);
      sketch.arc(centre, radius_m, first ? ray : ray - pi, pi, pi * radius_m / half, half);
      const double widened_m = Sketch::equal_area_radius_m(radius_m, pi / half);
      gaps[first ? 0 : 1].push_back({from_middle_m - widened_m, from_middle_m + widened_m});
      // Of a half plan the two rays are one line: a channel that covers the middle takes from the other ray too.
      if (sector.mirrors == 1 && widened_m > from_middle_m)
        gaps[first ? 1 : 0].push_back({0.0, widened_m - from_middle_m});
      break;
    }
    case Stand::inside:
      sketch.arc(channel.centre, radius_m, std::atan2(channel.centre.y_m, channel.centre.x_m), 2.0 * pi,
                 pi * radius_m / half, 2 * half);
      sketch.hole(channel.centre);
      break;
    case Stand::outside:
      break;
  }
}

void draw_ray(double angle_rad, double wall_m, std::vector<Gap> gaps, double step_m, Sketch& sketch) {
  std::sort(gaps.begin(), gaps.end(), [](const Gap& a, const Gap& b) { return a.from_m < b.from_m; });
  double at_m = 0.0;
  for (const Gap& gap : gaps) {
    if (gap.from_m - at_m > same_place_m) sketch.line(polar(at_m, angle_rad), polar(gap.from_m, angle_rad), step_m);
    at_m = gap.to_m;
  }
  if (wall_m - at_m > same_place_m) sketch.line(polar(at_m, angle_rad), polar(wall_m, angle_rad), step_m);
}

}  // namespace

Outline make_outline(const vessel::Design& design, const Sector& sector, const PlanSize& size) {
  Sketch sketch;
  std::array<std::vector<Gap>, 2> gaps;
  for (const vessel::Channel& channel : design.channels) draw_channel(channel, sector, size.channel_m, sketch, gaps);

  const double start = sector.first_angle_rad;
  const double turn = sector.angle_rad();
  std::array<double, 2> wall_m{};
  if (design.footprint == vessel::Footprint::round) {
    const double radius_m = 0.5 * design.diameter_m;
    const int pieces = std::max(2, static_cast<int>(std::ceil(radius_m * turn / size.wall_m)));
    sketch.arc({}, radius_m, start, turn, radius_m * turn / pieces, pieces);
    wall_m.fill(Sketch::equal_area_radius_m(radius_m, turn / pieces));
  } else {
    const std::vector<Point> walk = rectangle_walk(design, sector);
    for (std::size_t k = 0; k + 1 < walk.size(); ++k) sketch.line(walk[k], walk[k + 1], size.wall_m);
    wall_m = {wall_distance_m(design, start), wall_distance_m(design, start + turn)};
  }
  if (sector.mirrors > 0) {
    draw_ray(start, wall_m[0], gaps[0], size.inside_m, sketch);
    draw_ray(start + turn, wall_m[1], gaps[1], size.inside_m, sketch);
  }
  return sketch.take();
}

}  // namespace stillheap::mesh
