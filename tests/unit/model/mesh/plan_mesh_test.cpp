#include "model/mesh/plan_mesh.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"

namespace stillheap::mesh {
namespace {

using constant::pi;

vessel::Design round_vessel(int ring, bool centre) {
  vessel::Design design;
  design.diameter_m = 1.2;
  design.height_m = design.fill_height_m = 1.2;
  if (centre) design.channels.push_back({{0.0, 0.0}, 0.1});
  for (int k = 0; k < ring; ++k)
    design.channels.push_back(
        {{0.3 * std::cos(0.2 + 2 * pi * k / ring), 0.3 * std::sin(0.2 + 2 * pi * k / ring)}, 0.1});
  return design;
}

vessel::Design rectangle() {
  vessel::Design design;
  design.footprint = vessel::Footprint::rectangular;
  design.length_m = 2.0;
  design.width_m = 1.0;
  design.height_m = design.fill_height_m = 1.0;
  for (const double x : {-0.6, 0.0, 0.6}) design.channels.push_back({{x, 0.0}, 0.12});
  return design;
}

double area_of(const PlanMesh& mesh) {
  return mesh.sector.copies() * std::accumulate(mesh.area_m2.begin(), mesh.area_m2.end(), 0.0);
}

double rim_of(const PlanMesh& mesh, bool wall) {
  double length_m = 0.0;
  for (const BoundaryEdge& brink : mesh.brinks)
    if ((brink.channel < 0) == wall) length_m += brink.length_m;
  return mesh.sector.copies() * length_m;
}

double material_area(const vessel::Design& design) {
  double area = design.footprint == vessel::Footprint::round ? pi * design.diameter_m * design.diameter_m / 4
                                                             : design.length_m * design.width_m;
  for (const vessel::Channel& channel : design.channels) area -= pi * channel.diameter_m * channel.diameter_m / 4;
  return area;
}

TEST(PlanMesh, KeepsTheMaterialsAreaWhateverTheSectorSolved) {
  for (const vessel::Design& design :
       {round_vessel(5, true), round_vessel(0, false), round_vessel(1, false), round_vessel(7, false), rectangle()}) {
    const Sector sector = find_sector(design);
    EXPECT_NEAR(area_of(make_plan_mesh(design, sector, {})) / material_area(design), 1.0, 1e-9);
    EXPECT_NEAR(area_of(make_plan_mesh(design, Sector{}, {})) / material_area(design), 1.0, 1e-9);
  }
}

/// Found by the sweep over random vessels: the channel's rim was cut by one mirror ray only and no cell was left.
TEST(PlanMesh, LeavesRoomForAChannelThatCoversTheMiddle) {
  vessel::Design narrow;
  narrow.diameter_m = 0.3;
  narrow.height_m = narrow.fill_height_m = 2.0;
  narrow.channels.push_back({{0.05027, -0.009502}, 0.138});
  vessel::Design wide = rectangle();
  wide.channels = {{{0.03, 0.0}, 0.12}};
  for (const vessel::Design& design : {narrow, wide}) {
    const Sector sector = find_sector(design);
    EXPECT_EQ(sector.mirrors, 1);
    const PlanMesh mesh = make_plan_mesh(design, sector, {});
    EXPECT_NEAR(area_of(mesh) / material_area(design), 1.0, 1e-9);
    EXPECT_NEAR(sector.copies() * mesh.channel_share[0], 1.0, 1e-9);
  }
}

TEST(PlanMesh, FindsTheWallAndEveryChannelsRim) {
  for (const vessel::Design& design : {round_vessel(5, true), rectangle()}) {
    const double wall_m = design.footprint == vessel::Footprint::round ? pi * design.diameter_m : 6.0;
    double channels_m = 0.0;
    for (const vessel::Channel& channel : design.channels) channels_m += pi * channel.diameter_m;
    for (const Sector& sector : {find_sector(design), Sector{}}) {
      const PlanMesh mesh = make_plan_mesh(design, sector, {});
      EXPECT_NEAR(rim_of(mesh, true) / wall_m, 1.0, 0.01);
      EXPECT_NEAR(rim_of(mesh, false) / channels_m, 1.0, 0.04);
    }
  }
}

TEST(PlanMesh, SharesOfChannelsAddUpToTheirNumber) {
  const vessel::Design design = round_vessel(5, true);
  const PlanMesh mesh = make_plan_mesh(design, find_sector(design), {});
  EXPECT_NEAR(std::accumulate(mesh.channel_share.begin(), mesh.channel_share.end(), 0.0) * mesh.sector.copies(), 6.0,
              0.3);
}

TEST(PlanMesh, IsExactForALinearField) {
  // Sum over a node's edges of ratio * (u_b - u_a) vanishes inside for u = 2 x - 3 y.
  const vessel::Design design = round_vessel(5, true);
  const PlanMesh mesh = make_plan_mesh(design, Sector{}, {});
  std::vector<double> sum(mesh.nodes.size(), 0.0);
  std::vector<bool> edge_node(mesh.nodes.size(), false);
  for (const BoundaryEdge& brink : mesh.brinks) edge_node[brink.node] = true;
  const auto field = [&](int k) { return 2.0 * mesh.nodes[k].x_m - 3.0 * mesh.nodes[k].y_m; };
  for (const Edge& edge : mesh.edges) {
    sum[edge.a] += edge.ratio * (field(edge.b) - field(edge.a));
    sum[edge.b] -= edge.ratio * (field(edge.b) - field(edge.a));
  }
  for (std::size_t k = 0; k < sum.size(); ++k) {
    if (edge_node[k]) continue;
    EXPECT_NEAR(sum[k], 0.0, 1e-12);
  }
}

TEST(Symmetry, FindsTheSmallestWedge) {
  EXPECT_EQ(find_sector(round_vessel(5, true)).mirrors, 5);
  EXPECT_EQ(find_sector(round_vessel(1, true)).mirrors, 1);
  EXPECT_EQ(find_sector(rectangle()).mirrors, 2);
  vessel::Design odd = round_vessel(3, false);
  odd.channels.push_back({{0.1, 0.05}, 0.06});
  EXPECT_EQ(find_sector(odd).mirrors, 0);
}

TEST(Unfold, GivesTheWholePlan) {
  const vessel::Design design = round_vessel(5, true);
  const PlanMesh mesh = make_plan_mesh(design, find_sector(design), {});
  const UnfoldedPlan whole = unfold(mesh);
  double area = 0.0;
  for (const auto& t : whole.triangles) {
    const Point a = whole.nodes[t[0]], b = whole.nodes[t[1]], c = whole.nodes[t[2]];
    const double twice = (b.x_m - a.x_m) * (c.y_m - a.y_m) - (c.x_m - a.x_m) * (b.y_m - a.y_m);
    EXPECT_GT(twice, 0.0);
    area += 0.5 * twice;
  }
  EXPECT_NEAR(area / material_area(design), 1.0, 1e-9);
}

}  // namespace
}  // namespace stillheap::mesh
