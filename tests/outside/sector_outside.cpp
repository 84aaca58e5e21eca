#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>
#include <vector>

#include "../unit/model/forecast/heap_bench.hpp"
#include "check.hpp"
#include "model/forecast/stepper.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

using outside::expect;

/// The full plan that mirroring makes of a sector's, and which node of the sector each of its nodes is.
struct Mirrored {
  mesh::PlanMesh plan;
  std::vector<int> original;
};

/// Where a point of the sector lies in a copy of it.
Point image(Point p, const mesh::Sector& sector, int copy) {
  const double radius_m = std::hypot(p.x_m, p.y_m), inside = std::atan2(p.y_m, p.x_m) - sector.first_angle_rad;
  const int turn = copy / 2;
  const double angle = sector.first_angle_rad + (copy % 2 == 1 ? -inside : inside) + turn * 2.0 * sector.angle_rad();
  return {radius_m * std::cos(angle), radius_m * std::sin(angle)};
}

/// The place of a point among those already there, which it joins if it is new.
int place_among(std::vector<Point>& there, Point p) {
  constexpr double same_m = 1e-6;
  const auto found =
      std::find_if(there.begin(), there.end(), [&](Point other) { return distance_m(other, p) < same_m; });
  const int place = static_cast<int>(found - there.begin());
  if (found == there.end()) there.push_back(p);
  return place;
}

/// Adds up what copies that touch have in common: nodes and edges on the rays, channels on them.
Mirrored mirrored(const mesh::PlanMesh& part, const vessel::Design& design) {
  Mirrored whole;
  std::map<std::pair<int, int>, double> ratio, brink_m;
  std::vector<Point> centres;
  for (const vessel::Channel& channel : design.channels) centres.push_back(channel.centre);
  whole.plan.channel_share.assign(centres.size(), 0.0);
  for (int copy = 0; copy < part.sector.copies(); ++copy) {
    std::vector<int> number;
    for (std::size_t n = 0; n < part.nodes.size(); ++n) {
      number.push_back(place_among(whole.plan.nodes, image(part.nodes[n], part.sector, copy)));
      whole.plan.area_m2.resize(whole.plan.nodes.size(), 0.0);
      whole.original.resize(whole.plan.nodes.size(), static_cast<int>(n));
      whole.plan.area_m2[number.back()] += part.area_m2[n];
    }
    const auto channel_of = [&](int channel) {
      return channel < 0 ? -1 : place_among(centres, image(centres[channel], part.sector, copy));
    };
    for (const mesh::Edge& edge : part.edges) ratio[std::minmax({number[edge.a], number[edge.b]})] += edge.ratio;
    for (const mesh::BoundaryEdge& brink : part.brinks)
      brink_m[{number[brink.node], channel_of(brink.channel)}] += brink.length_m;
    for (std::size_t k = 0; k < design.channels.size(); ++k) {
      if (part.channel_share[k] > 0.0)
        whole.plan.channel_share[channel_of(static_cast<int>(k))] += part.channel_share[k];
    }
  }
  EXPECT_EQ(centres.size(), design.channels.size());
  for (const auto& [ends, sum] : ratio) {
    whole.plan.edges.push_back(
        {ends.first, ends.second, sum, distance_m(whole.plan.nodes[ends.first], whole.plan.nodes[ends.second])});
  }
  for (const auto& [key, length_m] : brink_m) whole.plan.brinks.push_back({key.first, key.second, length_m});
  return whole;
}

/// What a heap is on day 5, in the amounts of the full vessel.
struct DayFive {
  State state;
  double rise_k = 0.0, water_kg = 0.0, flow_kg_s = 0.0, channel_flow_kg_s = 0.0, evaporated_kg = 0.0, lost_kg = 0.0;
};

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

DayFive day_five(const Heap& heap, double heat_tolerance_k = StepRule{}.heat_tolerance_k) {
  constexpr double end_s = 5.0 * 86400.0;
  StepRule rule = step_rule(Grid::draft);
  rule.heat_tolerance_k = heat_tolerance_k;
  Stepper stepper(heap, rule);
  while (stepper.state().time_s < end_s - 1e-6) stepper.step(end_s - stepper.state().time_s);
  DayFive day;
  day.state = stepper.state();
  const double copies = heap.heap_mesh.plan.sector.copies();
  for (int i = 0; i < heap.heap_mesh.cells(); ++i)
    day.rise_k += heap.first_dry_kg[i] * (day.state.temperature_c[i] - stepper.coefficients().outside.air_c);
  day.rise_k /= sum(heap.first_dry_kg);
  day.water_kg = copies * sum(day.state.water_kg);
  day.evaporated_kg = copies * stepper.balances().evaporated_kg;
  day.lost_kg = copies * stepper.balances().solids.out;
  for (std::size_t f = 0; f < heap.heap_mesh.faces.size(); ++f) {
    const double in = copies * std::max(-stepper.coefficients().face_flow_kg_s[f], 0.0);
    day.flow_kg_s += in;
    if (heap.heap_mesh.faces[f].channel >= 0) day.channel_flow_kg_s += in;
  }
  return day;
}

Heap heap_of(const GridSize& size, bool whole_plan) {
  const Request request = draft_weather(common_request(5));
  return make_heap(request, {}, size, whole_plan);
}

GridSize cut(Grid grid) {
  GridSize size = grid_size(common_round(), grid);
  size.layers = 6;
  return size;
}

/// The farthest that any cell of the full vessel is from its twin in the sector, each over its scale.
struct Apart {
  double rise = 0.0, oxygen = 0.0, water = 0.0;
};

Apart farthest(const Heap& whole, const Heap& sector, const std::vector<int>& original, const DayFive& full,
               const DayFive& part) {
  Apart apart;
  const int layers = whole.heap_mesh.layers;
  for (int i = 0; i < whole.heap_mesh.cells(); ++i) {
    const int twin = original[i / layers] * layers + i % layers;
    const auto off = [&](auto member) { return std::abs((full.state.*member)[i] - (part.state.*member)[twin]); };
    const double copies = whole.first_dry_kg[i] / sector.first_dry_kg[twin];
    apart.rise = std::max(apart.rise, off(&State::temperature_c) / part.rise_k);
    apart.oxygen = std::max(apart.oxygen, off(&State::oxygen_ratio) / physics::oxygen_outside);
    apart.water = std::max(apart.water, std::abs(full.state.water_kg[i] / copies / part.state.water_kg[twin] - 1.0));
  }
  return apart;
}

TEST(Sector, V04bMirroredNineTimes) {
  const Heap sector = heap_of(cut(Grid::draft), false);
  const Mirrored copies = mirrored(sector.heap_mesh.plan, sector.request.design);
  const Heap whole =
      make_heap(sector.request, {}, make_lattice(sector.request.design, copies.plan, sector.heap_mesh.layers));
  const DayFive part = day_five(sector), full = day_five(whole);
  const Apart apart = farthest(whole, sector, copies.original, full, part);
  expect("V04b", "copies", sum(whole.first_dry_kg) / sum(sector.first_dry_kg));
  expect("V04b", "rise_ratio", full.rise_k / part.rise_k);
  expect("V04b", "rise_of_any_cell_as_forecast", apart.rise);
  expect("V04b", "oxygen_of_any_cell", apart.oxygen);
  expect("V04b", "water_ratio", full.water_kg / part.water_kg);
  expect("V04b", "water_of_any_cell", apart.water);
  expect("V04b", "flow_ratio", full.flow_kg_s / part.flow_kg_s);
  expect("V04b", "flow_through_channels_ratio", full.channel_flow_kg_s / part.channel_flow_kg_s);
  expect("V04b", "evaporated_ratio", full.evaporated_kg / part.evaporated_kg);
  expect("V04b", "solids_lost_ratio", full.lost_kg / part.lost_kg);
  const DayFive fine_part = day_five(sector, 2e-3), fine_full = day_five(whole, 2e-3);
  outside::report_miss(
      "V04b", "rise_of_any_cell", farthest(whole, sector, copies.original, fine_full, fine_part).rise,
      "0.16 % since materials have their own air and heat, where 0.1 % is asked; why is not found yet");
}

TEST(Sector, V04cTriangulatedAnew) {
  for (const auto& [name, grid] : {std::pair{std::string("draft"), Grid::draft}, {"standard", Grid::standard}}) {
    const DayFive part = day_five(heap_of(cut(grid), false)), full = day_five(heap_of(cut(grid), true));
    expect("V04c", name + "_rise_ratio", full.rise_k / part.rise_k);
    expect("V04c", name + "_flow_ratio", full.flow_kg_s / part.flow_kg_s);
    expect("V04c", name + "_water_ratio", full.water_kg / part.water_kg);
  }
}

}  // namespace
}  // namespace stillheap::forecast
