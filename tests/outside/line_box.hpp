#pragma once
#include <cmath>

#include "../unit/model/forecast/heap_bench.hpp"

/// An upright box for plane problems, and the arithmetic of refinement.
namespace stillheap::forecast {

/// A row of columns of equal width, one deep; only its two ends are walls.
inline mesh::PlanMesh row_plan(double width_m, double depth_m, int columns) {
  mesh::PlanMesh plan;
  const double edge_m = width_m / columns;
  for (int c = 0; c < columns; ++c) {
    plan.nodes.push_back({(c + 0.5) * edge_m - 0.5 * width_m, 0.0});
    plan.area_m2.push_back(edge_m * depth_m);
    if (c > 0) plan.edges.push_back({c - 1, c, depth_m / edge_m, edge_m});
  }
  plan.brinks = {{0, -1, depth_m}, {columns - 1, -1, depth_m}};
  return plan;
}

/// The box on the bench: dry material, so that nothing but air moves in it.
inline Bench dry_box(double width_m, double height_m, int columns, int layers, double fill_c, double particle_m) {
  constexpr double depth_m = 0.1;
  Request request = plain_request(plain_box(width_m, depth_m, height_m));
  request.blend.moisture_wet = 0.0;
  request.fill_temperature_c = fill_c;
  request.surfaces.cover_flow_resistance_pa_s_m = 0.0;
  physics::Parameters parameters;
  parameters.particle_size_m = particle_m;
  return Bench(
      make_heap(request, parameters, make_lattice(request.design, row_plan(width_m, depth_m, columns), layers)));
}

/// Order seen on three grids, each cut `ratio` times finer than the one before.
inline double order_of(double coarse, double medium, double fine, double ratio = 2.0) {
  return std::log(std::abs((coarse - medium) / (medium - fine))) / std::log(ratio);
}

/// Order of errors against a known answer.
inline double order_of_errors(double coarse, double fine, double ratio = 2.0) {
  return std::log(std::abs(coarse / fine)) / std::log(ratio);
}

}  // namespace stillheap::forecast
