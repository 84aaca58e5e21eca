#include "model/forecast/totals.hpp"

#include <cmath>
#include <numeric>

#include "model/forecast/enthalpy.hpp"

namespace stillheap::forecast {
namespace {

void set(double first, double now, Balance& balance) noexcept {
  balance.stored = now - first;
  balance.held = std::abs(now) + std::abs(first);
}

}  // namespace

Totals totals_of(const Heap& heap, const State& state, std::span<const double> gas_kg) noexcept {
  Totals totals;
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    totals.solids_kg += dry_kg(heap, state, i);
    const double held_j = enthalpy_of(heap, state, i).held_j;
    totals.energy_j += held_j;
    totals.energy_size_j += std::abs(held_j);
  }
  totals.water_kg = std::accumulate(state.water_kg.begin(), state.water_kg.end(), 0.0);
  totals.salt_kg = std::accumulate(state.salt_kg.begin(), state.salt_kg.end(), 0.0);
  totals.oxygen_kg = oxygen_kg(state, gas_kg);
  return totals;
}

double oxygen_kg(const State& state, std::span<const double> gas_kg) noexcept {
  return std::inner_product(gas_kg.begin(), gas_kg.end(), state.oxygen_ratio.begin(), 0.0);
}

void set_stored(const Totals& first, const Totals& now, Balances& balances) noexcept {
  set(first.solids_kg, now.solids_kg, balances.solids);
  set(first.oxygen_kg, now.oxygen_kg, balances.oxygen);
  set(first.water_kg, now.water_kg, balances.water);
  set(first.salt_kg, now.salt_kg, balances.salt);
  set(first.energy_j, now.energy_j, balances.energy);
  balances.energy.held = first.energy_size_j + now.energy_size_j;
}

}  // namespace stillheap::forecast
