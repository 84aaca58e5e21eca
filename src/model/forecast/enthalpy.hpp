#pragma once
#include "model/forecast/heap.hpp"

/// What a cell's solids and water hold as heat, above solids and liquid water at 0 degC. Below 0 degC part of the water
/// is ice, as much as temperature, solids and salts say (physics/freezing.hpp): it needs no state of its own.
namespace stillheap::forecast {

struct Enthalpy {
  double held_j = 0.0;
  double slope_j_k = 0.0;   ///< by temperature, with what freezes or thaws on the way
  double water_j_kg = 0.0;  ///< of the water that comes or goes at this temperature: ice where there is ice
  double liquid_kg = 0.0;
};

struct Warmth {
  double celsius = 0.0;
  double liquid_kg = 0.0;
};

/// The same two below 0 degC, where there may be ice.
[[nodiscard]] Enthalpy enthalpy_in_frost(const Heap& heap, const State& state, int cell, double celsius,
                                         double water_kg, double near_kg) noexcept;
[[nodiscard]] Warmth warmth_in_frost(const Heap& heap, const State& state, int cell, double held_j, double water_kg,
                                     double near_kg) noexcept;

/// Heat to warm a cell without ice by 1 K, J/K.
[[nodiscard]] inline double thawed_j_k(const Heap& heap, const State& state, int cell, double water_kg) noexcept {
  return dry_kg(heap, state, cell) * heap.parameters.solids_heat_j_kg_k + water_kg * physics::water_heat_j_kg_k;
}

/// A cell at a temperature with so much water, its solids and salt as in `state`. `near_kg`: of liquid water, where the
/// search begins if it is more than 0.
[[nodiscard]] inline Enthalpy enthalpy_at(const Heap& heap, const State& state, int cell, double celsius,
                                          double water_kg, double near_kg = 0.0) noexcept {
  if (celsius < 0.0) return enthalpy_in_frost(heap, state, cell, celsius, water_kg, near_kg);
  const double heat_j_k = thawed_j_k(heap, state, cell, water_kg);
  return {heat_j_k * celsius, heat_j_k, physics::water_heat_j_kg_k * celsius, water_kg};
}

/// The cell as it is.
[[nodiscard]] inline Enthalpy enthalpy_of(const Heap& heap, const State& state, int cell) noexcept {
  return enthalpy_at(heap, state, cell, state.temperature_c[cell], state.water_kg[cell]);
}

/// Temperature and liquid water of the cell with so much water that holds so much heat. `near_kg`: of liquid water,
/// where the search begins.
[[nodiscard]] inline Warmth warmth_holding(const Heap& heap, const State& state, int cell, double held_j,
                                           double water_kg, double near_kg) noexcept {
  if (held_j < 0.0) return warmth_in_frost(heap, state, cell, held_j, water_kg, near_kg);
  return {held_j / thawed_j_k(heap, state, cell, water_kg), water_kg};
}

/// Whether the cell as it is has ice: cheaper than asking how much.
[[nodiscard]] bool has_ice(const Heap& heap, const State& state, int cell) noexcept;

}  // namespace stillheap::forecast
