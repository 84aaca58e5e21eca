#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "model/forecast/runner.hpp"

/// Temperatures where a record's sensors were, from a run.
namespace stillheap::records {

/// Mean temperatures of zones at one time, degC.
struct ZoneRow {
  double inside_c = 0.0;  ///< of all deeper than 0.5 m from open air and channels (the deeper half of a small heap)
  double top_c = 0.0;     ///< of the upper third, 0.3 to 1 m deep
  double middle_c = 0.0;  ///< of the middle third, its deeper half
};

struct Zones {
  std::vector<int> inside, top, middle;
};

/// What `ask(height share, depth in m)` accepts; all cells where it accepts none.
template <class Ask>
std::vector<int> cells_where(const forecast::Heap& heap, const Ask& ask) {
  std::vector<int> chosen, all;
  const int layers = heap.heap_mesh.layers;
  for (int i = 0; i < heap.heap_mesh.cells(); ++i) {
    all.push_back(i);
    if (ask((heap.heap_mesh.layer_of(i) + 0.5) / layers, heap.heap_mesh.air_distance_m[i])) chosen.push_back(i);
  }
  return chosen.empty() ? all : chosen;
}

inline Zones zones_of(const forecast::Heap& heap) {
  std::vector<double> depth = heap.heap_mesh.air_distance_m;
  std::nth_element(depth.begin(), depth.begin() + static_cast<std::ptrdiff_t>(depth.size() / 2), depth.end());
  const double median = depth[depth.size() / 2];
  const double inner = std::min(0.5, median);
  return {cells_where(heap, [&](double, double deep) { return deep >= inner; }),
          cells_where(heap, [&](double height, double deep) { return height > 2.0 / 3.0 && deep > 0.3 && deep < 1.0; }),
          cells_where(heap, [&](double height, double deep) {
            return height > 1.0 / 3.0 && height < 2.0 / 3.0 && deep >= median;
          })};
}

inline double mean_c(const forecast::Heap& heap, const forecast::State& state, const std::vector<int>& cells) {
  double sum = 0.0, weight = 0.0;
  for (const int i : cells) sum += heap.first_dry_kg[i] * state.temperature_c[i], weight += heap.first_dry_kg[i];
  return sum / weight;
}

/// One run with its zones, row for row beside the history.
struct Seen {
  forecast::RunHistory track;
  std::vector<ZoneRow> zone;
};

inline Seen see(const forecast::Heap& heap, forecast::Grid grid, double every_s) {
  const Zones zones = zones_of(heap);
  forecast::Runner runner(heap, forecast::step_rule(grid), {every_s, false});
  Seen seen;
  const auto look = [&] {
    const forecast::State& state = runner.state();
    seen.zone.push_back(
        {mean_c(heap, state, zones.inside), mean_c(heap, state, zones.top), mean_c(heap, state, zones.middle)});
  };
  look();
  for (double next_s = every_s; !runner.ended();) {
    runner.step();
    // As the runner itself closes its rows.
    if (runner.state().time_s < next_s - 1.0) continue;
    look();
    next_s += every_s;
  }
  seen.track = runner.track();
  seen.zone.resize(seen.track.history.size(), seen.zone.back());
  return seen;
}

}  // namespace stillheap::records
