#pragma once
#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/steps.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {

/// A heap on the bench: one step can be run alone, with coefficients set by hand.
struct Bench {
  explicit Bench(const Request& request, const GridSize& size, const physics::Parameters& parameters = {})
      : Bench(make_heap(request, parameters, size)) {}

  explicit Bench(Heap made) : heap(std::move(made)), state(first_state(heap)), work(heap) {
    outside.air_c = heap.request.fill_temperature_c;
    // Far closer than a forecast needs, so that a check sees the scheme and not its solver.
    work.heat_tolerance_k = 1e-6;
    work.heat_inner_tolerance = 1e-3;
    refresh();
  }

  void refresh() { set_scene(heap, state, outside, scene); }

  [[nodiscard]] int cells() const { return heap.lattice.cells(); }
  [[nodiscard]] double volume_m3() const {
    double sum = 0.0;
    for (const double v : scene.volume_m3) sum += v;
    return sum;
  }
  /// Mean over the cells' volumes of any node value.
  [[nodiscard]] double mean(const std::vector<double>& value) const {
    double sum = 0.0;
    for (int i = 0; i < cells(); ++i) sum += scene.volume_m3[i] * value[i];
    return sum / volume_m3();
  }
  /// The column nearest to a place of the plan.
  [[nodiscard]] int column_at(Point p) const {
    const auto& nodes = heap.lattice.plan.nodes;
    return static_cast<int>(std::min_element(nodes.begin(), nodes.end(),
                                             [&](Point a, Point b) { return distance_m(a, p) < distance_m(b, p); }) -
                            nodes.begin());
  }

  Heap heap;
  State state;
  weather::Hour outside;
  Scene scene;
  Workspace work;
  Ledger ledger;
};

/// Takes every exchange away: nothing flows, nothing decays.
inline void shut(Bench& bench) {
  Scene& scene = bench.scene;
  for (auto* links : {&scene.heat_w_k, &scene.vapour_kg_s, &scene.oxygen_kg_s, &scene.gas_kg_s_pa, &scene.gas_drive_pa,
                      &scene.gas_flow_kg_s})
    std::fill(links->begin(), links->end(), 0.0);
  std::fill(scene.face.begin(), scene.face.end(), FaceExchange{});
  std::fill(scene.face_flow_kg_s.begin(), scene.face_flow_kg_s.end(), 0.0);
  std::fill(scene.decay_factor.begin(), scene.decay_factor.end(), 0.0);
}

/// Lets one carrier through the material with one constant property (conductivity, or air density times diffusivity).
inline void conduct(Bench& bench, std::vector<double> Scene::*carrier, double property) {
  const auto& starts = bench.heap.lattice.kind_start;
  for (int k = 0; k < starts[2]; ++k) (bench.scene.*carrier)[k] = bench.scene.metric.over_distance_m[k] * property;
}

/// Runs the heat step alone.
[[nodiscard]] inline bool heat_for(Bench& bench, double dt_s, int steps) {
  for (int n = 0; n < steps; ++n) {
    bench.work.guess_c = bench.state.temperature_c;
    if (heat_step(bench.heap, bench.scene, dt_s, bench.state, bench.ledger, bench.work) != solver::Status::converged)
      return false;
  }
  return true;
}

}  // namespace stillheap::forecast
