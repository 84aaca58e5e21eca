#pragma once
#include <array>
#include <vector>

#include "core/base/geometry.hpp"

namespace stillheap::vessel {

/// A boundary the air comes from, in the plan: the surface of a channel, the inside of an open round wall, or
/// one open straight wall. Points p at distance d from any of them satisfy one equation of the same form,
///
///   square (|p|^2 - d^2) + x p_x + y p_y + reach d + constant = 0
///
/// with square = 1 for circles and 0 for lines. The difference of two circles is linear too, which turns
/// every "equally far from three" problem (Apollonius) into a straight line through (x, y, d) cut with at most
/// one quadric. Equation of a channel (c, r): (p - c)^2 = (d + r)^2; of a wall of radius R: |p|^2 = (R - d)^2;
/// of a line with inward unit normal n: n.p + offset = d.
struct Site {
  enum class Kind { channel, round_wall, straight_wall };
  Kind kind = Kind::channel;
  Point centre;           ///< channels; the inward normal for straight walls
  double radius_m = 0.0;  ///< channels and round walls; the offset for straight walls
};

/// Distance from a point of the footprint to the boundary; negative inside a channel.
[[nodiscard]] double distance_to_m(const Site& site, Point p) noexcept;

/// A straight closed wall as a condition on the point alone: n.p + offset = 0.
struct ClosedLine {
  Point normal;
  double offset_m = 0.0;
};

/// Points equally far from three boundaries (at most two; more candidates than solutions is fine, since a
/// caller measures the true distance at each).
void add_equidistant(const Site& a, const Site& b, const Site& c, std::vector<Point>& out);

/// Points of a straight closed wall equally far from two boundaries.
void add_equidistant_on_line(const Site& a, const Site& b, const ClosedLine& wall, std::vector<Point>& out);

/// Points of a circle about the origin (a closed round wall) equally far from two channels: roots of a
/// polynomial of degree four in exp(i angle), degree two for equal channels.
void add_equidistant_on_circle(const Site& a, const Site& b, double circle_radius_m, std::vector<Point>& out);

}  // namespace stillheap::vessel
