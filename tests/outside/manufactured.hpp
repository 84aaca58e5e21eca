#pragma once
#include <array>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "check.hpp"
#include "line_box.hpp"

/// Each transport term alone against a smooth field that was chosen first: what the field asks for as source is
/// put in, and the step must give the field back.
namespace stillheap::forecast {

inline constexpr double length_m = 1.0, width_m = 0.8, height_m = 0.6;

struct Spot {
  double x, y, z;
};
using Field = std::function<double(Spot)>;

/// div(k grad f) by central differences, good to about 1e-6 of it.
inline double spread_of(const Field& k, const Field& f, Spot p) {
  constexpr double h = 1e-3;
  double sum = 0.0;
  for (double Spot::*axis : {&Spot::x, &Spot::y, &Spot::z}) {
    const auto at = [&](double step) {
      Spot q = p;
      q.*axis += step;
      return q;
    };
    sum += (k(at(0.5 * h)) * (f(at(h)) - f(p)) - k(at(-0.5 * h)) * (f(p) - f(at(-h)))) / (h * h);
  }
  return sum;
}

inline Spot slope_of(const Field& f, Spot p) {
  constexpr double h = 1e-4;
  const auto along = [&](double Spot::*axis) {
    Spot up = p, down = p;
    up.*axis += h;
    down.*axis -= h;
    return (f(up) - f(down)) / (2.0 * h);
  };
  return {along(&Spot::x), along(&Spot::y), along(&Spot::z)};
}

/// A whole box on a triangulated plan, dry, with everything shut. Cuts 0, 1, 2 are each twice as fine.
inline Bench box(int cut) {
  const double edge_m = 0.2 / (1 << cut);
  Request request = plain_request(plain_box(length_m, width_m, height_m));
  request.blend.moisture_wet = 0.0;
  Bench bench(make_heap(request, {}, {{edge_m, edge_m, edge_m}, 4 << cut}, true));
  shut(bench);
  return bench;
}

/// A single column, wet, with everything shut.
inline Bench column(int cut) {
  Request request = plain_request(plain_box(0.1, 0.1, height_m));
  Bench bench(make_heap(request, {}, make_lattice(request.design, row_plan(0.1, 0.1, 1), 10 << cut)));
  shut(bench);
  return bench;
}

inline double layer_m(const Bench& bench) { return bench.state.layer_height_m.front(); }

inline Spot spot_of(const Bench& bench, int cell) {
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  const Point p = heap_mesh.plan.nodes[cell / heap_mesh.layers];
  return {p.x_m, p.y_m, (heap_mesh.layer_of(cell) + 0.5) * layer_m(bench)};
}

inline Spot spot_of(const Bench& bench, const Face& face) {
  Spot p = spot_of(bench, face.node);
  if (face.kind == FaceKind::top) p.z = height_m;
  if (face.kind == FaceKind::base) p.z = 0.0;
  return p;
}

/// Area over distance from a cell to its face. Wall cells stand on the wall: a distance that does not count.
inline double to_face_m(const Bench& bench, const Face& face) {
  constexpr double next_to_nothing_m = 1e-6;
  return face.kind == FaceKind::wall ? face.plan_m * layer_m(bench) / next_to_nothing_m
                                     : face.plan_m / (0.5 * layer_m(bench));
}

/// Lets a carrier through with a property that changes from place to place, averaged as the program does.
inline void let_through(Bench& bench, std::vector<double> Coefficients::*carrier, const Field& property) {
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  for (int k = 0; k < heap_mesh.kind_start[2]; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double mean = 0.5 * (property(spot_of(bench, a)) + property(spot_of(bench, b)));
    (bench.coefficients.*carrier)[k] = bench.coefficients.metric.over_distance_m[k] * mean;
  }
}

/// Root of the mean square of what is missing, over the volume.
inline double miss(const Bench& bench, const std::vector<double>& value, const Field& wanted) {
  double sum = 0.0;
  for (int i = 0; i < bench.cells(); ++i) {
    const double off = value[i] - wanted(spot_of(bench, i));
    sum += bench.coefficients.volume_m3[i] * off * off;
  }
  return std::sqrt(sum / bench.volume_m3());
}

/// The name's expectations: the order between the first and the last of three cuts, and the last error over a scale.
inline void report(const std::string& name, const std::function<double(int)>& error_of, double scale) {
  const std::array<double, 3> error{error_of(0), error_of(1), error_of(2)};
  outside::expect("M01", name + "_order", order_of_errors(error[0], error[2], 4.0));
  outside::expect("M01", name + "_error", error[2] / scale);
}

/// An even flow of gas through the box, kg/(m2 s), without loss at any cell: what a cell on the wall lacks comes
/// through the wall.
inline void blow(Bench& bench, Spot flux) {
  const HeapMesh& heap_mesh = bench.heap.heap_mesh;
  Coefficients& coefficients = bench.coefficients;
  std::vector<double> lacks(bench.cells(), 0.0);
  for (int k = 0; k < heap_mesh.kind_start[2]; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const Spot from = spot_of(bench, a), to = spot_of(bench, b);
    coefficients.gas_flow_kg_s[k] = coefficients.metric.over_distance_m[k] *
                                    (flux.x * (to.x - from.x) + flux.y * (to.y - from.y) + flux.z * (to.z - from.z));
    lacks[a] += coefficients.gas_flow_kg_s[k];
    lacks[b] -= coefficients.gas_flow_kg_s[k];
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    if (face.kind == FaceKind::wall) continue;
    coefficients.face_flow_kg_s[f] = (face.kind == FaceKind::top ? flux.z : -flux.z) * face.plan_m;
    lacks[face.node] += coefficients.face_flow_kg_s[f];
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    if (face.kind != FaceKind::wall) continue;
    coefficients.face_flow_kg_s[f] = -lacks[face.node];
    lacks[face.node] = 0.0;
  }
}

}  // namespace stillheap::forecast
