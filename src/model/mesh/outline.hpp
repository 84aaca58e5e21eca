#pragma once
#include <array>
#include <vector>

#include "model/mesh/plan_mesh.hpp"

namespace stillheap::mesh {

/// The boundary of the solved part of the plan as straight segments, ready for triangulation.
struct Outline {
  std::vector<Point> points;
  std::vector<std::array<int, 2>> segments;
  std::vector<Point> holes;  ///< one point in each channel that lies wholly inside
};

/// Walks the outer wall, the mirror rays and the channels' rims. Circles become polygons of equal area.
[[nodiscard]] Outline make_outline(const vessel::Design& design, const Sector& sector, const PlanSize& size);

}  // namespace stillheap::mesh
