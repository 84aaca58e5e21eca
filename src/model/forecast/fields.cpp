#include "model/forecast/fields.hpp"

#include <algorithm>

#include "core/base/constants.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {

FieldMesh field_mesh(const Heap& heap) {
  mesh::UnfoldedPlan whole = mesh::unfold(heap.heap_mesh.plan);
  return {std::move(whole.nodes), std::move(whole.triangles), heap.heap_mesh.layers + 1};
}

Snapshot take_snapshot(const Heap& heap, const State& state) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  Snapshot snapshot;
  snapshot.day = state.time_s / constant::seconds_per_day;
  snapshot.level_m.push_back(0.0);
  for (const double h : state.layer_height_m) snapshot.level_m.push_back(snapshot.level_m.back() + h);
  const auto at_level = [&](int column, int level, auto&& value) {
    const int below = column * heap_mesh.layers + std::max(level - 1, 0);
    const int above = column * heap_mesh.layers + std::min(level, heap_mesh.layers - 1);
    return static_cast<float>(0.5 * (value(below) + value(above)));
  };
  for (int level = 0; level <= heap_mesh.layers; ++level) {
    for (int copy = 0; copy < heap_mesh.plan.sector.copies(); ++copy) {
      for (int c = 0; c < heap_mesh.columns; ++c) {
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
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const double height = heap.request.design.fill_height_m * (heap_mesh.layer_of(cell) + 0.5) / heap_mesh.layers;
  return {heap_mesh.plan.nodes[cell / heap_mesh.layers], height};
}

}  // namespace stillheap::forecast
