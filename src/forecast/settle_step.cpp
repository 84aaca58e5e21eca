#include <cmath>

#include "base/constants.hpp"
#include "forecast/steps.hpp"
#include "physics/settlement.hpp"

namespace stillheap::forecast {

void settle_step(const Heap& heap, double dt_s, State& state) noexcept {
  const Lattice& lattice = heap.lattice;
  const physics::Parameters& par = heap.parameters;
  double area_m2 = 0.0;
  for (const double a : lattice.plan.area_m2) area_m2 += a;
  double above_kg = 0.0;
  for (int l = lattice.layers - 1; l >= 0; --l) {
    double dry = 0.0, wet = 0.0;
    for (int c = 0; c < lattice.columns; ++c) {
      const int i = c * lattice.layers + l;
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
