#pragma once
#include <algorithm>
#include <vector>

#include "domain/weather/series.hpp"
#include "model/forecast/heap.hpp"

namespace stillheap::forecast {

/// How one outer face meets the weather during a step.
struct FaceExchange {
  double heat_w_k = 0.0;     ///< conductance to `apparent_c`
  double apparent_c = 0.0;   ///< air temperature with sun and sky in it
  double vapour_kg_s = 0.0;  ///< times the difference of humidity ratios
  double oxygen_kg_s = 0.0;
  double gas_kg_s_pa = 0.0;   ///< dry air
  double rise_m = 0.0;        ///< from the node to the face, as far as air passes
  double gas_drive_pa = 0.0;  ///< buoyancy over that rise, outwards
};

/// Everything a step needs that follows from the state at its start and the weather: coefficients only,
/// no unknowns. Filled by `set_scene`; the steps below read it.
struct Coefficients {
  weather::Hour outside;
  double outside_vapour_ratio = 0.0;
  double outside_density_kg_m3 = 0.0;
  LinkMetric metric;
  // cells
  std::vector<double> dry_kg, volume_m3, free_air_space, water_dry, dry_air_density_kg_m3, gas_density_kg_m3;
  std::vector<double> viscosity_pa_s, permeability_m2, conductivity_w_m_k, oxygen_d_m2_s, vapour_d_m2_s, decay_factor;
  std::vector<double> vapour_ratio;  ///< over the material, kg per kg of dry air
  std::vector<double> gas_kg;        ///< nodes: dry air held
  // links
  std::vector<double> heat_w_k, vapour_kg_s, oxygen_kg_s, gas_kg_s_pa, gas_drive_pa;
  std::vector<double> gas_flow_kg_s;  ///< dry air from first to second node; set by the gas step
  // faces
  std::vector<FaceExchange> face;
  std::vector<double> face_flow_kg_s;  ///< dry air outwards; set by the gas step
};

/// Works out the coefficients from state and weather. Allocates on first use only.
void set_scene(const Heap& heap, const State& state, const weather::Hour& outside, Coefficients& coefficients);

/// What carries something away from either side of a link or a face [kg/s].
struct Carriers {
  double from_first = 0.0, from_second = 0.0;
};

/// Creep goes both ways, air takes along what is where it comes from. A face's first side is the node.
[[nodiscard]] inline Carriers carriers(double creep_kg_s, double flow_kg_s) noexcept {
  return {creep_kg_s + std::max(flow_kg_s, 0.0), creep_kg_s + std::max(-flow_kg_s, 0.0)};
}

/// The channels' drives anew, from their gas densities in `coefficients`.
void set_duct_drives(const HeapMesh& heap_mesh, Coefficients& coefficients) noexcept;

/// Largest share of water per dry matter the pores of a cell can hold.
[[nodiscard]] double saturated_water_dry(const Heap& heap, const Coefficients& coefficients, int cell) noexcept;

}  // namespace stillheap::forecast
