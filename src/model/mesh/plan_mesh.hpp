#pragma once
#include <array>
#include <vector>

#include "core/base/geometry.hpp"
#include "domain/vessel/design.hpp"
#include "model/mesh/symmetry.hpp"

namespace stillheap::mesh {

/// How finely the plan is cut.
struct PlanSize {
  double inside_m = 0.05;   ///< longest edge away from boundaries
  double wall_m = 0.05;     ///< edge length along the wall
  double channel_m = 0.03;  ///< edge length around a channel
};

/// An edge of the plan's triangulation with the geometry a two-point flux needs. On a Delaunay
/// triangulation the ratio `dual_m / length_m` is not negative and the flux is exact for linear fields.
struct Edge {
  int a = 0;
  int b = 0;
  double ratio = 0.0;  ///< length of the dual edge over the edge's length
  double length_m = 0.0;
};

/// A stretch of boundary that belongs to a node.
struct BoundaryEdge {
  int node = 0;
  int channel = -1;  ///< index into the design's channels, or -1 for the outer wall
  double length_m = 0.0;
};

/// The horizontal plan, triangulated: nodes carry the cells (their dual areas), edges the fluxes.
/// Everything refers to the solved sector.
struct PlanMesh {
  std::vector<Point> nodes;
  std::vector<std::array<int, 3>> triangles;
  std::vector<double> area_m2;  ///< a third of each triangle around a node
  std::vector<Edge> edges;
  std::vector<BoundaryEdge> brinks;
  std::vector<double> channel_share;  ///< of each channel's area and rim that lies in the sector, 0..1
  Sector sector;
};

/// Triangulates the material's plan (CGAL's Delaunay refinement). Deterministic. RunError when nothing of the
/// plan lies inside its outline.
[[nodiscard]] PlanMesh make_plan_mesh(const vessel::Design& design, const Sector& sector, const PlanSize& size);

/// The same mesh unfolded to the full vessel, for pictures: node k of copy c is c * nodes.size() + k.
struct UnfoldedPlan {
  std::vector<Point> nodes;
  std::vector<std::array<int, 3>> triangles;
};
[[nodiscard]] UnfoldedPlan unfold(const PlanMesh& mesh);

}  // namespace stillheap::mesh
