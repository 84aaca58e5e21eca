#include "model/forecast/diagnostics.hpp"

#include <algorithm>
#include <numeric>

#include "model/physics/gas.hpp"

namespace stillheap::forecast {

Diagnostics diagnose(const Heap& heap, const State& state, const std::vector<int>& core) {
  Diagnostics now;
  double mass = 0.0;
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    const double weight = heap.first_dry_kg[i];
    const double dry = dry_kg(heap, state, i);
    const double celsius = state.temperature_c[i];
    const double oxygen = physics::oxygen_share(state.oxygen_ratio[i]);
    const double moisture = state.water_kg[i] / (state.water_kg[i] + dry);
    mass += weight;
    now.mean_c += weight * celsius;
    now.mean_oxygen += weight * oxygen;
    now.share_below_5 += oxygen < low_oxygen ? weight : 0.0;
    if (celsius > now.hottest_c) now.hottest_c = celsius, now.hottest = i;
    now.coldest_c = std::min(now.coldest_c, celsius);
    if (oxygen < now.lowest_oxygen) now.lowest_oxygen = oxygen, now.airless = i;
    now.driest = std::min(now.driest, moisture);
    now.wettest = std::max(now.wettest, moisture);
    now.water_kg += state.water_kg[i];
    now.dry_kg += dry;
    now.volatile_kg += dry - heap.ash_kg[i];
  }
  now.mean_c /= mass;
  now.mean_oxygen /= mass;
  now.share_below_5 /= mass;
  for (const int i : core) now.core_c += state.temperature_c[i] / static_cast<double>(core.size());
  return now;
}

std::vector<int> core_cells(const Heap& heap) {
  std::vector<int> order(heap.heap_mesh.cells());
  std::iota(order.begin(), order.end(), 0);
  const auto& distance = heap.heap_mesh.air_distance_m;
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return distance[a] > distance[b]; });
  const double total = std::accumulate(heap.first_dry_kg.begin(), heap.first_dry_kg.end(), 0.0);
  double sum = 0.0;
  std::size_t count = 0;
  while (count < order.size() && sum < 0.1 * total) sum += heap.first_dry_kg[order[count++]];
  order.resize(count);
  return order;
}

}  // namespace stillheap::forecast
