#pragma once
#include <array>
#include <vector>

#include "domain/material/feedstock.hpp"
#include "model/forecast/heap_mesh.hpp"
#include "model/forecast/request.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/parameters.hpp"

namespace stillheap::forecast {

inline constexpr std::size_t pools = material::pool_count;

/// What the heap is at one moment. Masses are kg in the solved sector's cell.
struct State {
  double time_s = 0.0;                             ///< since filling
  std::vector<double> temperature_c;               ///< nodes
  std::vector<double> oxygen_ratio;                ///< nodes, kg per kg dry air
  std::vector<double> duct_vapour_ratio;           ///< channels' nodes only, kg per kg dry air
  std::array<std::vector<double>, pools> pool_kg;  ///< cells
  std::vector<double> water_kg, salt_kg;           ///< cells
  std::vector<double> pressure_pa;                 ///< nodes, above the outside column
  std::vector<double> duct_flow_kg_s;              ///< duct links: flow that sets the friction, see gas_step
  std::vector<double> mouth_flow_kg_s;             ///< faces: the same for mouths, 0 elsewhere
  std::vector<double> duct_density_kg_m3;          ///< channels' nodes: gas density that drives the draft
  std::vector<double> strain;                      ///< layers
  std::vector<double> layer_height_m;              ///< layers
};

/// What never changes during a run.
struct Heap {
  HeapMesh heap_mesh;
  physics::Parameters parameters;
  Request request;
  std::vector<double> lasting_kg, ash_kg;    ///< cells
  std::vector<double> first_dry_kg;          ///< cells
  std::vector<double> first_layer_dry_kg;    ///< layers
  std::vector<double> first_layer_height_m;  ///< layers
};

/// Fills the vessel: the blend spread evenly at the fill temperature.
[[nodiscard]] Heap make_heap(const Request& request, const physics::Parameters& parameters, const GridSize& size,
                             bool whole_plan = false);
[[nodiscard]] Heap make_heap(const Request& request, const physics::Parameters& parameters, HeapMesh heap_mesh);
[[nodiscard]] State first_state(const Heap& heap);

[[nodiscard]] inline double dry_kg(const Heap& heap, const State& state, int cell) noexcept {
  double sum = heap.lasting_kg[cell] + heap.ash_kg[cell];
  for (const auto& pool : state.pool_kg) sum += pool[cell];
  return sum;
}

}  // namespace stillheap::forecast
