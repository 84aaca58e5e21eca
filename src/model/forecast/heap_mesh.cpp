#include "model/forecast/heap_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/constants.hpp"

namespace stillheap::forecast {
namespace {

struct Builder {
  HeapMesh heap_mesh;

  void link(int a, int b, double plan, int layer) {
    heap_mesh.links.push_back({a, b});
    heap_mesh.link_plan.push_back(plan);
    heap_mesh.link_layer.push_back(layer);
  }
  void close_kind(LinkKind kind) {
    heap_mesh.kind_start[static_cast<int>(kind) + 1] = static_cast<int>(heap_mesh.links.size());
  }
};

void link_cells(Builder& builder) {
  HeapMesh& heap_mesh = builder.heap_mesh;
  for (const mesh::Edge& edge : heap_mesh.plan.edges) {
    for (int l = 0; l < heap_mesh.layers; ++l)
      builder.link(edge.a * heap_mesh.layers + l, edge.b * heap_mesh.layers + l, edge.ratio, l);
  }
  builder.close_kind(LinkKind::across);
  for (int c = 0; c < heap_mesh.columns; ++c) {
    for (int l = 0; l + 1 < heap_mesh.layers; ++l)
      builder.link(c * heap_mesh.layers + l, c * heap_mesh.layers + l + 1, heap_mesh.plan.area_m2[c], l);
  }
  builder.close_kind(LinkKind::upward);
}

void link_channels(Builder& builder) {
  HeapMesh& heap_mesh = builder.heap_mesh;
  for (const mesh::BoundaryEdge& brink : heap_mesh.plan.brinks) {
    if (brink.channel < 0) continue;
    for (int l = 0; l < heap_mesh.layers; ++l)
      builder.link(brink.node * heap_mesh.layers + l, heap_mesh.duct(brink.channel, l), brink.length_m, l);
  }
  builder.close_kind(LinkKind::rim);
  for (int k = 0; k < heap_mesh.channels; ++k) {
    for (int l = 0; l + 1 < heap_mesh.layers; ++l)
      builder.link(heap_mesh.duct(k, l), heap_mesh.duct(k, l + 1), heap_mesh.channel_area_m2[k], l);
  }
  builder.close_kind(LinkKind::duct);
}

void add_faces(HeapMesh& heap_mesh) {
  for (const mesh::BoundaryEdge& brink : heap_mesh.plan.brinks) {
    if (brink.channel >= 0) continue;
    for (int l = 0; l < heap_mesh.layers; ++l)
      heap_mesh.faces.push_back({brink.node * heap_mesh.layers + l, FaceKind::wall, brink.length_m, -1});
  }
  for (int c = 0; c < heap_mesh.columns; ++c) {
    heap_mesh.faces.push_back(
        {c * heap_mesh.layers + heap_mesh.layers - 1, FaceKind::top, heap_mesh.plan.area_m2[c], -1});
    heap_mesh.faces.push_back({c * heap_mesh.layers, FaceKind::base, heap_mesh.plan.area_m2[c], -1});
  }
  for (int k = 0; k < heap_mesh.channels; ++k) {
    heap_mesh.faces.push_back(
        {heap_mesh.duct(k, heap_mesh.layers - 1), FaceKind::mouth_top, heap_mesh.channel_area_m2[k], k});
    heap_mesh.faces.push_back({heap_mesh.duct(k, 0), FaceKind::mouth_base, heap_mesh.channel_area_m2[k], k});
  }
}

// A column of less than this share of the mean one's area is a sliver. Chosen.
constexpr double sliver_share = 0.05;

/// Where form and wall nearly touch, the plan is cut into corners of a square millimetre.
void find_slivers(HeapMesh& heap_mesh) {
  const std::vector<double>& area = heap_mesh.plan.area_m2;
  double mean = 0.0;
  for (const double a : area) mean += a / heap_mesh.columns;
  heap_mesh.is_sliver.assign(static_cast<std::size_t>(heap_mesh.columns), 0);
  for (int c = 0; c < heap_mesh.columns; ++c) heap_mesh.is_sliver[c] = area[c] < sliver_share * mean ? 1 : 0;
  for (int c = 0; c < heap_mesh.columns; ++c) {
    if (heap_mesh.is_sliver[c] == 0) continue;
    // Slivers come in clusters: the nearest column that is none, beside it or not.
    int wide = -1;
    for (int other = 0; other < heap_mesh.columns; ++other) {
      if (heap_mesh.is_sliver[other] != 0) continue;
      if (wide < 0 || distance_m(heap_mesh.plan.nodes[c], heap_mesh.plan.nodes[other]) <
                          distance_m(heap_mesh.plan.nodes[c], heap_mesh.plan.nodes[wide]))
        wide = other;
    }
    heap_mesh.slivers.push_back({c, wide});
  }
}

double wall_gap_m(const vessel::Design& design, Point p) {
  if (design.footprint == vessel::Footprint::round) return 0.5 * design.diameter_m - std::hypot(p.x_m, p.y_m);
  return std::min(0.5 * design.length_m - std::abs(p.x_m), 0.5 * design.width_m - std::abs(p.y_m));
}

/// How far each cell is from air, which tells the core from the shell.
std::vector<double> distances_to_air(const vessel::Design& design, const HeapMesh& heap_mesh) {
  std::vector<double> distance(heap_mesh.cells());
  for (int c = 0; c < heap_mesh.columns; ++c) {
    const Point p = heap_mesh.plan.nodes[c];
    double plan_m = wall_gap_m(design, p);  // a closed wall is still the cool side
    for (const vessel::Channel& channel : design.channels)
      plan_m = std::min(plan_m, distance_m(p, channel.centre) - 0.5 * channel.diameter_m);
    for (int l = 0; l < heap_mesh.layers; ++l) {
      const double z = design.fill_height_m * (l + 0.5) / heap_mesh.layers;
      distance[c * heap_mesh.layers + l] = std::min({plan_m, z, design.fill_height_m - z});
    }
  }
  return distance;
}

}  // namespace

std::span<const std::array<int, 2>> HeapMesh::of_kind(LinkKind kind) const noexcept {
  const int k = static_cast<int>(kind);
  return std::span(links).subspan(kind_start[k], kind_start[k + 1] - kind_start[k]);
}

GridSize grid_size(const vessel::Design& design, Grid grid) {
  // A Delaunay plan of longest edge e holds about 1.6 area / e^2 nodes; standard asks for 700 and 18 layers.
  const double area_m2 = vessel::material_area_m2(design);
  const double standard_m = std::sqrt(1.6 * area_m2 / 700.0);
  double channel_m = standard_m;
  for (const vessel::Channel& channel : design.channels)
    channel_m = std::min(channel_m, constant::pi * channel.diameter_m / 8.0);
  switch (grid) {
    case Grid::draft:
      return {{2.0 * standard_m, 2.0 * standard_m, 1.4 * channel_m}, 8};
    case Grid::standard:
      return {{standard_m, standard_m, channel_m}, 18};
    case Grid::fine:
      return {{0.5 * standard_m, 0.5 * standard_m, 0.5 * channel_m}, 36};
  }
  return {};
}

HeapMesh make_lattice(const vessel::Design& design, const GridSize& size, bool whole_plan) {
  const mesh::Sector sector = whole_plan ? mesh::Sector{} : mesh::find_sector(design);
  return make_lattice(design, mesh::make_plan_mesh(design, sector, size.plan), size.layers);
}

HeapMesh make_lattice(const vessel::Design& design, mesh::PlanMesh plan, int layers) {
  Builder builder;
  HeapMesh& heap_mesh = builder.heap_mesh;
  heap_mesh.plan = std::move(plan);
  heap_mesh.layers = layers;
  heap_mesh.columns = static_cast<int>(heap_mesh.plan.nodes.size());
  // Channels of which nothing lies in the sector are somebody's mirror image; keep the others, renumbered.
  std::vector<int> number(design.channels.size(), -1);
  for (std::size_t k = 0; k < design.channels.size(); ++k) {
    if (heap_mesh.plan.channel_share[k] <= 0.0) continue;
    number[k] = heap_mesh.channels++;
    const double d = design.channels[k].diameter_m;
    heap_mesh.channel_diameter_m.push_back(d);
    heap_mesh.channel_area_m2.push_back(heap_mesh.plan.channel_share[k] * constant::pi * d * d / 4.0);
  }
  for (mesh::BoundaryEdge& brink : heap_mesh.plan.brinks)
    if (brink.channel >= 0) brink.channel = number[brink.channel];
  link_cells(builder);
  link_channels(builder);
  add_faces(heap_mesh);
  find_slivers(heap_mesh);
  heap_mesh.air_distance_m = distances_to_air(design, heap_mesh);
  heap_mesh.pattern = solver::make_pattern(heap_mesh.columns + heap_mesh.channels, layers, heap_mesh.links);
  heap_mesh.places = solver::find_places(heap_mesh.pattern, heap_mesh.links);
  return std::move(builder.heap_mesh);
}

void measure_links(const HeapMesh& heap_mesh, std::span<const double> layer_height_m, LinkMetric& metric) noexcept {
  metric.over_distance_m.resize(heap_mesh.links.size());
  metric.rise_m.resize(heap_mesh.links.size());
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const int l = heap_mesh.link_layer[k];
    const bool up = static_cast<int>(k) >= heap_mesh.kind_start[1] && static_cast<int>(k) < heap_mesh.kind_start[2];
    const bool duct = static_cast<int>(k) >= heap_mesh.kind_start[3];
    if (up || duct) {
      metric.rise_m[k] = 0.5 * (layer_height_m[l] + layer_height_m[l + 1]);
      metric.over_distance_m[k] = heap_mesh.link_plan[k] / metric.rise_m[k];
    } else {
      metric.rise_m[k] = 0.0;
      metric.over_distance_m[k] = heap_mesh.link_plan[k] * layer_height_m[l];
    }
  }
}

}  // namespace stillheap::forecast
