#include <cmath>

#include "core/base/constants.hpp"
#include "model/forecast/steps.hpp"
#include "model/physics/settlement.hpp"

namespace stillheap::forecast {

void settle_step(const Heap& heap, double dt_s, State& state) noexcept {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const physics::Parameters& par = heap.parameters;
  double area_m2 = 0.0;
  for (const double a : heap_mesh.plan.area_m2) area_m2 += a;
  double above_kg = 0.0;
  for (int l = heap_mesh.layers - 1; l >= 0; --l) {
    double dry = 0.0, wet = 0.0;
    for (int c = 0; c < heap_mesh.columns; ++c) {
      const int i = c * heap_mesh.layers + l;
      const double d = dry_kg(heap, state, i);
      dry += d;
      wet += d + state.water_kg[i];
    }
    const double load_pa = (above_kg + 0.5 * wet) * constant::gravity_m_s2 / area_m2;
    const double target = physics::compression_strain(load_pa, par.compression_index);
    // Compression follows its load with a delay and does not come back when the load goes.
    if (target > state.strain[l])
      state.strain[l] += (target - state.strain[l]) * -std::expm1(-dt_s / par.compression_time_s);
    state.layer_height_m[l] =
        heap.first_layer_height_m[l] *
        physics::layer_height_ratio(dry / heap.first_layer_dry_kg[l], par.height_per_solids, state.strain[l]);
    above_kg += wet;
  }
}

}  // namespace stillheap::forecast
