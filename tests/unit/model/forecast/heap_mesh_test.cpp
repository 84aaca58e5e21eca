#include "model/forecast/heap_mesh.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <numeric>

#include "model/forecast/heap.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

int full_cells(const vessel::Design& design, Grid grid) {
  const HeapMesh heap_mesh = make_lattice(design, grid_size(design, grid));
  return heap_mesh.cells() * heap_mesh.plan.sector.copies();
}

TEST(GridSize, GivesAFullStandardVesselAtLeastTwelveThousandCells) {
  EXPECT_GE(full_cells(common_round(), Grid::standard), 12000);
  EXPECT_GE(full_cells(plain_box(2.0, 1.2, 1.0), Grid::standard), 12000);
}

TEST(GridSize, CutsFinerFromDraftToFine) {
  const int draft = full_cells(common_round(), Grid::draft);
  const int standard = full_cells(common_round(), Grid::standard);
  EXPECT_GT(draft, 500);
  EXPECT_GT(standard, 3 * draft);
  EXPECT_GT(full_cells(common_round(), Grid::fine), 4 * standard);
}

TEST(HeapMesh, KeepsLinksOfAKindTogetherAndFacesWhereTheyBelong) {
  const HeapMesh heap_mesh = make_lattice(common_round(), grid_size(common_round(), Grid::draft));
  EXPECT_EQ(heap_mesh.kind_start.front(), 0);
  EXPECT_EQ(heap_mesh.kind_start.back(), static_cast<int>(heap_mesh.links.size()));
  for (const auto& [below, above] : heap_mesh.of_kind(LinkKind::upward)) EXPECT_EQ(above, below + 1);
  for (const auto& [a, b] : heap_mesh.of_kind(LinkKind::across))
    EXPECT_EQ(heap_mesh.layer_of(a), heap_mesh.layer_of(b));
  for (const auto& [cell, node] : heap_mesh.of_kind(LinkKind::rim)) {
    EXPECT_LT(cell, heap_mesh.cells());
    EXPECT_GE(node, heap_mesh.cells());
    EXPECT_EQ(heap_mesh.layer_of(cell), heap_mesh.layer_of(node));
  }
  EXPECT_EQ(heap_mesh.of_kind(LinkKind::duct).size(),
            static_cast<std::size_t>(heap_mesh.channels * (heap_mesh.layers - 1)));
}

TEST(HeapMesh, SolvesOneTenthOfFiveChannelsInARing) {
  const HeapMesh heap_mesh = make_lattice(common_round(), grid_size(common_round(), Grid::draft));
  EXPECT_EQ(heap_mesh.plan.sector.copies(), 10);
  EXPECT_EQ(heap_mesh.channels, 2);  // half of one in the ring, a wedge of the middle one
  double top_m2 = 0.0;
  for (const Face& face : heap_mesh.faces)
    if (face.kind == FaceKind::top) top_m2 += face.plan_m;
  EXPECT_NEAR(10.0 * top_m2, vessel::material_area_m2(common_round()), 1e-6);
}

TEST(HeapMesh, GivesChannelsTheAreaAndRimOfTheirCircles) {
  for (const bool whole_plan : {false, true}) {
    const HeapMesh heap_mesh = make_lattice(common_round(), grid_size(common_round(), Grid::draft), whole_plan);
    const double copies = heap_mesh.plan.sector.copies();
    double area_m2 = 0.0, rim_m = 0.0;
    for (const double part : heap_mesh.channel_area_m2) area_m2 += part;
    for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; k += heap_mesh.layers)
      rim_m += heap_mesh.link_plan[k];
    EXPECT_NEAR(copies * area_m2, 6.0 * std::numbers::pi * 0.1016 * 0.1016 / 4.0, 1e-9);
    EXPECT_NEAR(copies * rim_m, 6.0 * std::numbers::pi * 0.1016, 1e-9);
  }
}

TEST(HeapMesh, MeasuresRiseAndDistanceFromTheLayersHeights) {
  const HeapMesh heap_mesh = make_lattice(plain_box(1.0, 1.0, 0.6), {{0.3, 0.3, 0.3}, 3});
  LinkMetric metric;
  const std::vector<double> heights{0.1, 0.2, 0.3};
  measure_links(heap_mesh, heights, metric);
  for (int k = heap_mesh.kind_start[1]; k < heap_mesh.kind_start[2]; ++k) {
    const double rise_m = heap_mesh.link_layer[k] == 0 ? 0.15 : 0.25;
    EXPECT_DOUBLE_EQ(metric.rise_m[k], rise_m);
    EXPECT_DOUBLE_EQ(metric.over_distance_m[k], heap_mesh.link_plan[k] / rise_m);
  }
  for (int k = 0; k < heap_mesh.kind_start[1]; ++k) {
    EXPECT_EQ(metric.rise_m[k], 0.0);
    EXPECT_DOUBLE_EQ(metric.over_distance_m[k], heap_mesh.link_plan[k] * heights[heap_mesh.link_layer[k]]);
  }
}

TEST(Heap, HoldsTheMassTheBlendSays) {
  const Request request = common_request(1);
  const Heap heap = make_heap(request, {}, grid_size(request.design, Grid::draft));
  const State state = first_state(heap);
  const double dry = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  const double water = std::accumulate(state.water_kg.begin(), state.water_kg.end(), 0.0);
  const double wet_kg = request.blend.bulk_density_kg_m3 * vessel::material_volume_m3(request.design);
  EXPECT_NEAR(10.0 * (dry + water), wet_kg, 1e-6 * wet_kg);
  EXPECT_NEAR(water / (dry + water), request.blend.moisture_wet, 1e-12);
  double sum = 0.0;
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) sum += dry_kg(heap, state, i);
  EXPECT_NEAR(sum, dry, 1e-9 * dry);
}

}  // namespace
}  // namespace stillheap::forecast
