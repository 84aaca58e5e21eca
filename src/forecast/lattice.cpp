#include "forecast/lattice.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/constants.hpp"

namespace stillheap::forecast {
namespace {

struct Builder {
  Lattice lattice;

  void link(int a, int b, double plan, int layer) {
    lattice.links.push_back({a, b});
    lattice.link_plan.push_back(plan);
    lattice.link_layer.push_back(layer);
  }
  void close_kind(LinkKind kind) {
    lattice.kind_start[static_cast<int>(kind) + 1] = static_cast<int>(lattice.links.size());
  }
};

void link_cells(Builder& builder) {
  Lattice& lattice = builder.lattice;
  for (const mesh::Edge& edge : lattice.plan.edges) {
    for (int l = 0; l < lattice.layers; ++l)
      builder.link(edge.a * lattice.layers + l, edge.b * lattice.layers + l, edge.ratio, l);
  }
  builder.close_kind(LinkKind::across);
  for (int c = 0; c < lattice.columns; ++c) {
    for (int l = 0; l + 1 < lattice.layers; ++l)
      builder.link(c * lattice.layers + l, c * lattice.layers + l + 1, lattice.plan.area_m2[c], l);
  }
  builder.close_kind(LinkKind::upward);
}

void link_channels(Builder& builder) {
  Lattice& lattice = builder.lattice;
  for (const mesh::Brink& brink : lattice.plan.brinks) {
    if (brink.channel < 0) continue;
    for (int l = 0; l < lattice.layers; ++l)
      builder.link(brink.node * lattice.layers + l, lattice.duct(brink.channel, l), brink.length_m, l);
  }
  builder.close_kind(LinkKind::rim);
  for (int k = 0; k < lattice.channels; ++k) {
    for (int l = 0; l + 1 < lattice.layers; ++l)
      builder.link(lattice.duct(k, l), lattice.duct(k, l + 1), lattice.channel_area_m2[k], l);
  }
  builder.close_kind(LinkKind::duct);
}

void add_faces(Lattice& lattice) {
  for (const mesh::Brink& brink : lattice.plan.brinks) {
    if (brink.channel >= 0) continue;
    for (int l = 0; l < lattice.layers; ++l)
      lattice.faces.push_back({brink.node * lattice.layers + l, FaceKind::wall, brink.length_m, -1});
  }
  for (int c = 0; c < lattice.columns; ++c) {
    lattice.faces.push_back({c * lattice.layers + lattice.layers - 1, FaceKind::top, lattice.plan.area_m2[c], -1});
    lattice.faces.push_back({c * lattice.layers, FaceKind::base, lattice.plan.area_m2[c], -1});
  }
  for (int k = 0; k < lattice.channels; ++k) {
    lattice.faces.push_back({lattice.duct(k, lattice.layers - 1), FaceKind::mouth_top, lattice.channel_area_m2[k], k});
    lattice.faces.push_back({lattice.duct(k, 0), FaceKind::mouth_base, lattice.channel_area_m2[k], k});
  }
}

// A column of less than this share of the mean one's area is a sliver. Chosen.
constexpr double sliver_share = 0.05;

/// Where form and wall nearly touch, the plan is cut into corners of a square millimetre.
void find_slivers(Lattice& lattice) {
  const std::vector<double>& area = lattice.plan.area_m2;
  double mean = 0.0;
  for (const double a : area) mean += a / lattice.columns;
  lattice.is_sliver.assign(static_cast<std::size_t>(lattice.columns), 0);
  for (int c = 0; c < lattice.columns; ++c) lattice.is_sliver[c] = area[c] < sliver_share * mean ? 1 : 0;
  for (int c = 0; c < lattice.columns; ++c) {
    if (lattice.is_sliver[c] == 0) continue;
    // Slivers come in clusters: the nearest column that is none, beside it or not.
    int wide = -1;
    for (int other = 0; other < lattice.columns; ++other) {
      if (lattice.is_sliver[other] != 0) continue;
      if (wide < 0 || distance_m(lattice.plan.nodes[c], lattice.plan.nodes[other]) <
                          distance_m(lattice.plan.nodes[c], lattice.plan.nodes[wide]))
        wide = other;
    }
    lattice.slivers.push_back({c, wide});
  }
}

double wall_gap_m(const vessel::Design& design, Point p) {
  if (design.footprint == vessel::Footprint::round) return 0.5 * design.diameter_m - std::hypot(p.x_m, p.y_m);
  return std::min(0.5 * design.length_m - std::abs(p.x_m), 0.5 * design.width_m - std::abs(p.y_m));
}

/// How far each cell is from air, which tells the core from the shell.
std::vector<double> distances_to_air(const vessel::Design& design, const Lattice& lattice) {
  std::vector<double> distance(lattice.cells());
  for (int c = 0; c < lattice.columns; ++c) {
    const Point p = lattice.plan.nodes[c];
    double plan_m = wall_gap_m(design, p);  // a closed wall is still the cool side
    for (const vessel::Channel& channel : design.channels)
      plan_m = std::min(plan_m, distance_m(p, channel.centre) - 0.5 * channel.diameter_m);
    for (int l = 0; l < lattice.layers; ++l) {
      const double z = design.fill_height_m * (l + 0.5) / lattice.layers;
      distance[c * lattice.layers + l] = std::min({plan_m, z, design.fill_height_m - z});
    }
  }
  return distance;
}

}  // namespace

std::span<const std::array<int, 2>> Lattice::of_kind(LinkKind kind) const noexcept {
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

Lattice make_lattice(const vessel::Design& design, const GridSize& size, bool whole_plan) {
  const mesh::Sector sector = whole_plan ? mesh::Sector{} : mesh::find_sector(design);
  return make_lattice(design, mesh::make_plan_mesh(design, sector, size.plan), size.layers);
}

Lattice make_lattice(const vessel::Design& design, mesh::PlanMesh plan, int layers) {
  Builder builder;
  Lattice& lattice = builder.lattice;
  lattice.plan = std::move(plan);
  lattice.layers = layers;
  lattice.columns = static_cast<int>(lattice.plan.nodes.size());
  // Channels of which nothing lies in the sector are somebody's mirror image; keep the others, renumbered.
  std::vector<int> number(design.channels.size(), -1);
  for (std::size_t k = 0; k < design.channels.size(); ++k) {
    if (lattice.plan.channel_share[k] <= 0.0) continue;
    number[k] = lattice.channels++;
    const double d = design.channels[k].diameter_m;
    lattice.channel_diameter_m.push_back(d);
    lattice.channel_area_m2.push_back(lattice.plan.channel_share[k] * constant::pi * d * d / 4.0);
  }
  for (mesh::Brink& brink : lattice.plan.brinks)
    if (brink.channel >= 0) brink.channel = number[brink.channel];
  link_cells(builder);
  link_channels(builder);
  add_faces(lattice);
  find_slivers(lattice);
  lattice.air_distance_m = distances_to_air(design, lattice);
  lattice.pattern = solver::make_pattern(lattice.columns + lattice.channels, layers, lattice.links);
  lattice.places = solver::find_places(lattice.pattern, lattice.links);
  return std::move(builder.lattice);
}

void measure_links(const Lattice& lattice, std::span<const double> layer_height_m, LinkMetric& metric) noexcept {
  metric.over_distance_m.resize(lattice.links.size());
  metric.rise_m.resize(lattice.links.size());
  for (std::size_t k = 0; k < lattice.links.size(); ++k) {
    const int l = lattice.link_layer[k];
    const bool up = static_cast<int>(k) >= lattice.kind_start[1] && static_cast<int>(k) < lattice.kind_start[2];
    const bool duct = static_cast<int>(k) >= lattice.kind_start[3];
    if (up || duct) {
      metric.rise_m[k] = 0.5 * (layer_height_m[l] + layer_height_m[l + 1]);
      metric.over_distance_m[k] = lattice.link_plan[k] / metric.rise_m[k];
    } else {
      metric.rise_m[k] = 0.0;
      metric.over_distance_m[k] = lattice.link_plan[k] * layer_height_m[l];
    }
  }
}

}  // namespace stillheap::forecast
