#pragma once
#include <cmath>

namespace stillheap {

/// A point of the horizontal plan; the origin is the middle of the vessel.
struct Point {
  double x_m = 0.0;
  double y_m = 0.0;
};

[[nodiscard]] inline double distance_m(Point a, Point b) noexcept { return std::hypot(a.x_m - b.x_m, a.y_m - b.y_m); }

}  // namespace stillheap
