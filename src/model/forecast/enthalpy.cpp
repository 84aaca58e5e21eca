#include "model/forecast/enthalpy.hpp"

#include <algorithm>
#include <cmath>

#include "model/physics/freezing.hpp"

namespace stillheap::forecast {
namespace {

using physics::ice_heat_j_kg_k;
using physics::water_heat_j_kg_k;

// A cell with less water than this has nothing that freezes.
constexpr double least_water_dry = 1e-6;

/// A cell's solids, and its water and salt a kilogram of them.
struct Solids {
  double kg = 0.0;
  double heat_j_k = 0.0;
  double water_dry = 0.0;
  double salt_dry = 0.0;
};

Solids solids_of(const Heap& heap, const State& state, int cell, double water_kg) {
  const double dry = dry_kg(heap, state, cell);
  const double salt_kg = std::max(state.salt_kg[cell], physics::least_salt_in_water * water_kg);
  return {dry, dry * heap.parameters.solids_heat_j_kg_k, water_kg / dry, salt_kg / dry};
}

/// Temperature at which the cell begins to freeze; what is dry never does.
double freezing_point_c(const Solids& solids) {
  if (solids.water_dry < least_water_dry) return -constant::zero_celsius_k;
  return physics::freezing(solids.water_dry, solids.salt_dry).celsius;
}

Enthalpy thawed(double heat_j_k, double celsius, double water_kg) {
  return {heat_j_k * celsius, heat_j_k, water_heat_j_kg_k * celsius, water_kg};
}

/// With ice beside `liquid_dry` of water, at the balance of both.
Enthalpy frozen(const Solids& solids, double liquid_dry, const physics::Freezing& at) {
  const double ice_j_kg = physics::ice_enthalpy_j_kg(at.celsius);
  const double liquid_j_kg = water_heat_j_kg_k * at.celsius;
  const double ice_dry = solids.water_dry - liquid_dry;
  const double held = solids.heat_j_k * at.celsius + solids.kg * (liquid_dry * liquid_j_kg + ice_dry * ice_j_kg);
  const double slope = solids.heat_j_k + solids.kg * (liquid_dry * water_heat_j_kg_k + ice_dry * ice_heat_j_kg_k +
                                                      (liquid_j_kg - ice_j_kg) / at.slope_k);
  return {held, slope, ice_j_kg, liquid_dry * solids.kg};
}

}  // namespace

Enthalpy enthalpy_in_frost(const Heap& heap, const State& state, int cell, double celsius, double water_kg,
                           double near_kg) noexcept {
  const Solids solids = solids_of(heap, state, cell, water_kg);
  physics::Liquid liquid{solids.water_dry, 0.0};
  if (solids.water_dry >= least_water_dry)
    liquid = physics::liquid_beside_ice(celsius, solids.salt_dry, solids.water_dry, near_kg / solids.kg);
  if (liquid.dry >= solids.water_dry) return thawed(thawed_j_k(heap, state, cell, water_kg), celsius, water_kg);
  return frozen(solids, liquid.dry, {celsius, liquid.slope_k});
}

bool has_ice(const Heap& heap, const State& state, int cell) noexcept {
  const double celsius = state.temperature_c[cell];
  if (celsius >= 0.0) return false;
  return celsius < freezing_point_c(solids_of(heap, state, cell, state.water_kg[cell]));
}

Warmth warmth_in_frost(const Heap& heap, const State& state, int cell, double held_j, double water_kg,
                       double near_kg) noexcept {
  const double thawed_c = held_j / thawed_j_k(heap, state, cell, water_kg);
  const Solids solids = solids_of(heap, state, cell, water_kg);
  if (thawed_c >= freezing_point_c(solids)) return {thawed_c, water_kg};
  // What a cell holds rises with its liquid water, and that names the temperature: bisect, polished by Newton.
  double low = 0.0, high = solids.water_dry, liquid = std::min(near_kg / solids.kg, 0.9 * high);
  physics::Freezing at;
  for (int round = 0; round < 80; ++round) {
    at = physics::freezing(liquid, solids.salt_dry);
    const Enthalpy now = frozen(solids, liquid, at);
    const double miss_k = (now.held_j - held_j) / now.slope_j_k;
    (miss_k > 0.0 ? high : low) = liquid;
    const double newton = liquid - miss_k / at.slope_k;
    if (std::abs(newton - liquid) < 1e-7 * liquid) return {at.celsius - miss_k, newton * solids.kg};
    liquid = newton > low && newton < high ? newton : 0.5 * (low + high);
  }
  return {at.celsius, liquid * solids.kg};
}

}  // namespace stillheap::forecast
