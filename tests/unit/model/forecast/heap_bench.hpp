#pragma once
#include <algorithm>
#include <cmath>
#include <utility>

#include "model/forecast/steps.hpp"
#include "model/forecast/totals.hpp"
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
    mark();
  }

  void refresh() { set_scene(heap, state, outside, coefficients); }

  /// What is there now counts as the start of the balances.
  void mark() { first = totals_of(heap, state, coefficients.gas_kg); }
  /// The balances with what is stored measured on the state. For oxygen only as long as nothing was refreshed.
  [[nodiscard]] Balances measured() const {
    Balances all = balances;
    set_stored(first, totals_of(heap, state, coefficients.gas_kg), all);
    return all;
  }

  [[nodiscard]] int cells() const { return heap.heap_mesh.cells(); }
  [[nodiscard]] double volume_m3() const {
    double sum = 0.0;
    for (const double v : coefficients.volume_m3) sum += v;
    return sum;
  }
  /// Mean over the cells' volumes of any node value.
  [[nodiscard]] double mean(const std::vector<double>& value) const {
    double sum = 0.0;
    for (int i = 0; i < cells(); ++i) sum += coefficients.volume_m3[i] * value[i];
    return sum / volume_m3();
  }
  /// The column nearest to a place of the plan.
  [[nodiscard]] int column_at(Point p) const {
    const auto& nodes = heap.heap_mesh.plan.nodes;
    return static_cast<int>(std::min_element(nodes.begin(), nodes.end(),
                                             [&](Point a, Point b) { return distance_m(a, p) < distance_m(b, p); }) -
                            nodes.begin());
  }

  Heap heap;
  State state;
  weather::Hour outside;
  Coefficients coefficients;
  Workspace work;
  Balances balances;
  Totals first;
};

/// Takes every exchange away: nothing flows, nothing decays.
inline void shut(Bench& bench) {
  Coefficients& coefficients = bench.coefficients;
  for (auto* links : {&coefficients.heat_w_k, &coefficients.vapour_kg_s, &coefficients.oxygen_kg_s,
                      &coefficients.gas_kg_s_pa, &coefficients.gas_drive_pa, &coefficients.gas_flow_kg_s})
    std::fill(links->begin(), links->end(), 0.0);
  std::fill(coefficients.face.begin(), coefficients.face.end(), FaceExchange{});
  std::fill(coefficients.face_flow_kg_s.begin(), coefficients.face_flow_kg_s.end(), 0.0);
  std::fill(coefficients.decay_factor.begin(), coefficients.decay_factor.end(), 0.0);
}

/// Lets one carrier through the material with one constant property (conductivity, or air density times diffusivity).
inline void conduct(Bench& bench, std::vector<double> Coefficients::*carrier, double property) {
  const auto& starts = bench.heap.heap_mesh.kind_start;
  for (int k = 0; k < starts[2]; ++k)
    (bench.coefficients.*carrier)[k] = bench.coefficients.metric.over_distance_m[k] * property;
}

/// Runs the heat step alone.
[[nodiscard]] inline bool heat_for(Bench& bench, double dt_s, int steps) {
  for (int n = 0; n < steps; ++n) {
    bench.work.guess_c = bench.state.temperature_c;
    if (heat_step(bench.heap, bench.coefficients, dt_s, bench.state, bench.balances, bench.work) !=
        solver::Status::converged)
      return false;
  }
  return true;
}

}  // namespace stillheap::forecast
