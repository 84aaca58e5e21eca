#pragma once
#include <vector>

#include "model/forecast/heap.hpp"

namespace stillheap::forecast {

/// Oxygen by volume below which a cell counts as short of air.
inline constexpr double low_oxygen = 0.05;

/// Heap-wide numbers at one moment, in the solved sector's amounts.
struct Diagnostics {
  double mean_c = 0.0, core_c = 0.0, hottest_c = -300.0, coldest_c = 300.0;
  int hottest = 0, airless = 0;
  double lowest_oxygen = 1.0, mean_oxygen = 0.0, share_below_5 = 0.0;
  double driest = 1.0, wettest = 0.0, water_kg = 0.0, dry_kg = 0.0, volatile_kg = 0.0;
};

/// `core` are the cells that `core_cells` names.
[[nodiscard]] Diagnostics diagnose(const Heap& heap, const State& state, const std::vector<int>& core);

/// The cells of the core: the tenth of the volume that lies farthest from air.
[[nodiscard]] std::vector<int> core_cells(const Heap& heap);

}  // namespace stillheap::forecast
