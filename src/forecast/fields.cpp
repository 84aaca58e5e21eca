#include "forecast/fields.hpp"

#include <algorithm>

#include "base/constants.hpp"
#include "physics/gas.hpp"

namespace stillheap::forecast {

FieldMesh field_mesh(const Heap& heap) {
  mesh::UnfoldedPlan whole = mesh::unfold(heap.lattice.plan);
  return {std::move(whole.nodes), std::move(whole.triangles), heap.lattice.layers + 1};
}

Snapshot take_snapshot(const Heap& heap, const State& state) {
  const Lattice& lattice = heap.lattice;
  Snapshot snapshot;
  snapshot.day = state.time_s / constant::seconds_per_day;
  snapshot.level_m.push_back(0.0);
  for (const double h : state.layer_height_m) snapshot.level_m.push_back(snapshot.level_m.back() + h);
  const auto at_level = [&](int column, int level, auto&& value) {
    const int below = column * lattice.layers + std::max(level - 1, 0);
    const int above = column * lattice.layers + std::min(level, lattice.layers - 1);
    return static_cast<float>(0.5 * (value(below) + value(above)));
  };
  for (int level = 0; level <= lattice.layers; ++level) {
    for (int copy = 0; copy < lattice.plan.sector.copies(); ++copy) {
      for (int c = 0; c < lattice.columns; ++c) {
        snapshot.temperature_c.push_back(at_level(c, level, [&](int i) { return state.temperature_c[i]; }));
        snapshot.oxygen.push_back(
            at_level(c, level, [&](int i) { return physics::oxygen_share(state.oxygen_ratio[i]); }));
        snapshot.moisture_wet.push_back(at_level(
            c, level, [&](int i) { return state.water_kg[i] / (state.water_kg[i] + dry_kg(heap, state, i)); }));
      }
    }
  }
  return snapshot;
}

Place3 place_of(const Heap& heap, int cell) noexcept {
  const Lattice& lattice = heap.lattice;
  const double height = heap.request.design.fill_height_m * (lattice.layer_of(cell) + 0.5) / lattice.layers;
  return {lattice.plan.nodes[cell / lattice.layers], height};
}

}  // namespace stillheap::forecast
