#include "model/forecast/vapour.hpp"

#include <algorithm>
#include <cmath>

#include "domain/weather/air.hpp"
#include "model/physics/freezing.hpp"
#include "model/physics/water_activity.hpp"

namespace stillheap::forecast {
namespace {

// Below this, where activity is 0.99998 and falling, it is solved with the flow. Chosen.
constexpr double damp_water_dry = 0.6;

// How far damp cells are followed, chosen.
constexpr int most_damp_rounds = 30;
constexpr double least_change_kg_kg = 1e-6;

bool is_damp(const Coefficients& coefficients, const State& state, int i) {
  return state.water_kg[i] / coefficients.dry_kg[i] < damp_water_dry;
}

/// What carries vapour out of every node, to `sum_a` [kg/s], and the vapour that comes in, to `sum_b` [kg/s].
void sum_carriers(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  auto& out = work.sum_a;
  auto& in = work.sum_b;
  std::fill(out.begin(), out.end(), 0.0);
  std::fill(in.begin(), in.end(), 0.0);
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const auto [from_a, from_b] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    out[a] += from_a;
    in[b] += from_a * work.vapour[a];
    out[b] += from_b;
    in[a] += from_b * work.vapour[b];
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const int i = heap_mesh.faces[f].node;
    const auto [outwards, inwards] = carriers(coefficients.face[f].vapour_kg_s, coefficients.face_flow_kg_s[f]);
    out[i] += outwards;
    in[i] += inwards * coefficients.outside_vapour_ratio;
  }
}

/// Vapour over one cell and its slope.
void set_cell_vapour(const Coefficients& coefficients, double dt_s, const State& state, int i, Workspace& work) {
  const double celsius = work.unknown[i];
  const double pressure = coefficients.outside.pressure_pa;
  const double saturated_pa = weather::saturation_pressure_pa(celsius);
  const double saturated = weather::humidity_ratio(saturated_pa, pressure);
  // d/dT of 0.622 e / (p - e)
  const double slope = saturated * weather::saturation_growth_1_k(celsius) * pressure / (pressure - saturated_pa);
  const double water = state.water_kg[i] / coefficients.dry_kg[i];
  physics::WaterActivity activity;
  double held = 1.0;
  if (!is_damp(coefficients, state, i)) {
    activity = physics::water_activity(water);
  } else {
    const double gain = dt_s * work.sum_b[i] / coefficients.dry_kg[i];
    const double loss = dt_s * work.sum_a[i] * saturated / coefficients.dry_kg[i];
    double low = 0.0, high = water + gain;  // the balance rises with water: bisect, polished by Newton
    double left = std::clamp(work.activity[i], low, high);
    for (int round = 0; round < 40; ++round) {
      activity = physics::water_activity(left);
      const double miss = left - water - gain + loss * activity.value;
      (miss > 0.0 ? high : low) = left;
      if (std::abs(miss) < 1e-13) break;
      const double newton = left - miss / (1.0 + loss * activity.slope);
      left = newton > low && newton < high ? newton : 0.5 * (low + high);
    }
    work.activity[i] = left;
    held = 1.0 / (1.0 + loss * activity.slope);
  }
  work.vapour[i] = activity.value * saturated;
  work.vapour_slope[i] = activity.value * slope * held;
  if (celsius >= 0.0) return;
  const physics::IceActivity ice = physics::ice_activity(celsius);
  if (ice.value >= activity.value) return;  // too dry or too salty to freeze
  work.vapour[i] = ice.value * saturated;
  work.vapour_slope[i] = ice.value * slope + ice.slope_1_k * saturated;
}

/// Vapour over all cells, or over the damp ones; what it changed by to `work.right`. Returns the largest change.
double set_cells(const HeapMesh& heap_mesh, const Coefficients& coefficients, double dt_s, const State& state,
                 bool damp_only, Workspace& work) {
  auto& change = work.right;
  std::fill(change.begin(), change.end(), 0.0);
  double largest = 0.0;
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    if (damp_only && !is_damp(coefficients, state, i)) continue;
    const double before = work.vapour[i];
    set_cell_vapour(coefficients, dt_s, state, i, work);
    change[i] = work.vapour[i] - before;
    largest = std::max(largest, std::abs(change[i]));
  }
  return largest;
}

/// Adds to what comes in everywhere what the last changes bring along.
void pass_on(const HeapMesh& heap_mesh, const Coefficients& coefficients, Workspace& work) {
  const auto& change = work.right;
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const auto [from_a, from_b] = carriers(coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k]);
    work.sum_b[a] += from_b * change[b];
    work.sum_b[b] += from_a * change[a];
  }
}

bool any_damp(const HeapMesh& heap_mesh, const Coefficients& coefficients, const State& state) {
  for (int i = 0; i < heap_mesh.cells(); ++i)
    if (is_damp(coefficients, state, i)) return true;
  return false;
}

}  // namespace

// Dry cells hold next to no water, so their vapour is what their neighbours bring, and they stand side by side: it
// settles among them here.
void set_vapour(const Heap& heap, const Coefficients& coefficients, double dt_s, const State& state, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  sum_carriers(heap_mesh, coefficients, work);
  double largest = set_cells(heap_mesh, coefficients, dt_s, state, false, work);
  if (!any_damp(heap_mesh, coefficients, state)) return;
  for (int round = 0; round < most_damp_rounds && largest > least_change_kg_kg; ++round) {
    pass_on(heap_mesh, coefficients, work);
    largest = set_cells(heap_mesh, coefficients, dt_s, state, true, work);
  }
}

}  // namespace stillheap::forecast
