#pragma once
#include <span>

#include "model/forecast/balances.hpp"
#include "model/forecast/heap.hpp"

namespace stillheap::forecast {

/// What the solved sector holds of every conserved quantity but dry air, whose amount the model takes as steady.
struct Totals {
  double solids_kg = 0.0, oxygen_kg = 0.0, water_kg = 0.0, salt_kg = 0.0;
  double energy_j = 0.0;       ///< above solids and liquid water at 0 degC
  double energy_size_j = 0.0;  ///< the cells' amounts without their signs: what rounding is a share of
};

/// Sums over all nodes as they are. `gas_kg`: dry air that each node holds; when empty, oxygen is left at 0.
[[nodiscard]] Totals totals_of(const Heap& heap, const State& state, std::span<const double> gas_kg) noexcept;

/// Oxygen alone.
[[nodiscard]] double oxygen_kg(const State& state, std::span<const double> gas_kg) noexcept;

/// Writes `stored` and `held` of every balance but dry air's from what was there at first and what is there now. The
/// steps book only what comes, goes and is made, so a step that loses or invents something shows as an error.
void set_stored(const Totals& first, const Totals& now, Balances& balances) noexcept;

}  // namespace stillheap::forecast
