#include "model/forecast/heap.hpp"

#include <numeric>
#include <utility>

#include "core/base/constants.hpp"
#include "domain/weather/air.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

struct Fill {
  double dry_kg_m3;
  double water_kg_m3;
};

Fill fill_of(const material::Blend& blend) {
  return {blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet), blend.bulk_density_kg_m3 * blend.moisture_wet};
}

double cell_volume_m3(const Heap& heap, int cell) {
  return heap.heap_mesh.plan.area_m2[cell / heap.heap_mesh.layers] *
         heap.first_layer_height_m[heap.heap_mesh.layer_of(cell)];
}

}  // namespace

Heap make_heap(const Request& request, const physics::Parameters& parameters, const GridSize& size, bool whole_plan) {
  return make_heap(request, parameters, make_lattice(request.design, size, whole_plan));
}

Heap make_heap(const Request& request, const physics::Parameters& parameters, HeapMesh heap_mesh) {
  Heap heap{std::move(heap_mesh), parameters, request, {}, {}, {}, {}, {}};
  const int layers = heap.heap_mesh.layers;
  heap.first_layer_height_m.assign(layers, request.design.fill_height_m / layers);
  heap.first_layer_dry_kg.assign(layers, 0.0);
  const material::Blend& blend = request.blend;
  const double in_pools = std::accumulate(blend.pool_dry.begin(), blend.pool_dry.end(), 0.0);
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    const double dry = fill_of(blend).dry_kg_m3 * cell_volume_m3(heap, i);
    heap.first_dry_kg.push_back(dry);
    heap.ash_kg.push_back(blend.ash_dry * dry);
    heap.lasting_kg.push_back((1.0 - blend.ash_dry - in_pools) * dry);
    heap.first_layer_dry_kg[heap.heap_mesh.layer_of(i)] += dry;
  }
  return heap;
}

State first_state(const Heap& heap) {
  State state;
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const material::Blend& blend = heap.request.blend;
  state.temperature_c.assign(heap_mesh.nodes(), heap.request.fill_temperature_c);
  state.oxygen_ratio.assign(heap_mesh.nodes(), physics::oxygen_outside);
  state.duct_vapour_ratio.assign(heap_mesh.nodes() - heap_mesh.cells(), 0.005);
  state.pressure_pa.assign(heap_mesh.nodes(), 0.0);
  state.duct_flow_kg_s.assign(heap_mesh.of_kind(LinkKind::duct).size(), 0.0);
  state.mouth_flow_kg_s.assign(heap_mesh.faces.size(), 0.0);
  state.duct_density_kg_m3.assign(
      state.duct_vapour_ratio.size(),
      weather::moist_air_density_kg_m3(heap.request.fill_temperature_c, 0.0, constant::standard_pressure_pa));
  state.strain.assign(heap_mesh.layers, 0.0);
  state.layer_height_m = heap.first_layer_height_m;
  for (std::size_t p = 0; p < pools; ++p)
    for (const double dry : heap.first_dry_kg) state.pool_kg[p].push_back(blend.pool_dry[p] * dry);
  const double water_dry = blend.moisture_wet / (1.0 - blend.moisture_wet);
  for (const double dry : heap.first_dry_kg) {
    state.water_kg.push_back(water_dry * dry);
    state.salt_kg.push_back(blend.conductivity_s_m * heap.parameters.salt_per_conductivity * dry);
  }
  return state;
}

}  // namespace stillheap::forecast
