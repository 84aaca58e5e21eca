#include <algorithm>
#include <cmath>
#include <limits>

#include "model/forecast/duct_air.hpp"
#include "model/forecast/heat_system.hpp"
#include "model/forecast/steps.hpp"
#include "model/forecast/vapour.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/water_activity.hpp"

namespace stillheap::forecast {
namespace {

using physics::dry_air_heat_j_kg_k;
using physics::vapour_enthalpy_j_kg;

// Limits of Newton's search, chosen.
constexpr int most_rounds = 25;
constexpr double largest_change_k = 15.0;
constexpr double largest_duct_change_k = 60.0;  // a channel's air follows whatever enters it, and its draft may turn
// A cell takes exactly what its fluxes bring, so an error of the fluxes lands in the cell's temperature: by so much at
// most. Small cells exchange many times what they hold; slivers hand their error on. Chosen.
constexpr double largest_rest_k = 0.1;

constexpr double most_bend = 2.0;  // of a slope, that factors of the last round still serve

/// What crosses one link or face: vapour, and energy with it.
struct Carried {
  double vapour_kg_s = 0.0;
  double energy_w = 0.0;
};

/// From a to b: conduction, and dry air and vapour with the enthalpy of the side they come from.
Carried carried(double heat_w_k, double vapour_kg_s, double flow_kg_s, double celsius_a, double celsius_b,
                double vapour_a, double vapour_b) {
  const double from = flow_kg_s > 0.0 ? celsius_a : celsius_b;
  const double with_air = flow_kg_s * (flow_kg_s > 0.0 ? vapour_a : vapour_b);
  const double crept = vapour_kg_s * (vapour_a - vapour_b);
  const double crept_from = crept > 0.0 ? celsius_a : celsius_b;
  return {with_air + crept, heat_w_k * (celsius_a - celsius_b) + flow_kg_s * dry_air_heat_j_kg_k * from +
                                with_air * vapour_enthalpy_j_kg(from) + crept * vapour_enthalpy_j_kg(crept_from)};
}

/// Net energy and vapour into every node by the links.
void sum_fluxes(const Heap& heap, const Coefficients& coefficients, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  auto& energy = work.sum_a;
  auto& vapour = work.sum_b;
  std::fill(energy.begin(), energy.end(), 0.0);
  std::fill(vapour.begin(), vapour.end(), 0.0);
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const Carried c = carried(coefficients.heat_w_k[k], coefficients.vapour_kg_s[k], coefficients.gas_flow_kg_s[k],
                              work.unknown[a], work.unknown[b], work.vapour[a], work.vapour[b]);
    energy[a] -= c.energy_w;
    energy[b] += c.energy_w;
    vapour[a] -= c.vapour_kg_s;
    vapour[b] += c.vapour_kg_s;
  }
}

Carried through_face(const Heap& heap, const Coefficients& coefficients, const Workspace& work, std::size_t f) {
  const int i = heap.heap_mesh.faces[f].node;
  const FaceExchange& face = coefficients.face[f];
  Carried c = carried(0.0, face.vapour_kg_s, coefficients.face_flow_kg_s[f], work.unknown[i],
                      coefficients.outside.air_c, work.vapour[i], coefficients.outside_vapour_ratio);
  c.energy_w += face.heat_w_k * (work.unknown[i] - face.apparent_c);
  return c;
}

void add_faces(const Heap& heap, const Coefficients& coefficients, Workspace& work) {
  for (std::size_t f = 0; f < heap.heap_mesh.faces.size(); ++f) {
    const int i = heap.heap_mesh.faces[f].node;
    const Carried c = through_face(heap, coefficients, work, f);
    work.sum_a[i] -= c.energy_w;
    work.sum_b[i] -= c.vapour_kg_s;
  }
}

/// What the found vapour leaves a cell; a search may pass by less than nothing.
double water_at_end_kg(const State& state, const Workspace& work, double dt_s, int i) {
  return std::max(0.0, state.water_kg[i] + dt_s * work.sum_b[i]);
}

/// By how much the fluxes of a round miss the nodes' balances.
struct Misses {
  double norm_w = 0.0;
  double largest_k = 0.0;  ///< as a temperature, of any node
  bool bent = false;       ///< a cell began to freeze or thaw, so that its slope is another than a round before
};

/// Net power into every node less what its cell takes up [W], to `right`. Slivers and channels hold next to nothing:
/// what they miss is measured by what they exchange, as the last round's matrix has it.
Misses measure_misses(const Heap& heap, double dt_s, const State& state, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  HeatSystem& system = work.heat;
  Misses misses;
  double sum_w2 = 0.0;
  for (int i = 0; i < heap_mesh.nodes(); ++i) {
    double balance_w = work.sum_a[i];
    double stiffness_w_k = system.matrix.value[system.matrix.diagonal[i]];
    if (i < heap_mesh.cells()) {
      Enthalpy& end = work.end_heat[i];
      const double last_slope_j_k = end.slope_j_k;
      end = enthalpy_at(heap, state, i, work.unknown[i], water_at_end_kg(state, work, dt_s, i), end.liquid_kg);
      misses.bent =
          misses.bent || end.slope_j_k > most_bend * last_slope_j_k || last_slope_j_k > most_bend * end.slope_j_k;
      balance_w += work.heat_made_w[i] - (end.held_j - work.first_held_j[i]) / dt_s;
      if (heap_mesh.is_sliver[i / heap_mesh.layers] == 0) stiffness_w_k = end.slope_j_k / dt_s;
    }
    misses.largest_k = std::max(misses.largest_k, std::abs(balance_w) / stiffness_w_k);
    system.right[i] = balance_w;
    sum_w2 += balance_w * balance_w;
  }
  misses.norm_w = std::sqrt(sum_w2);
  return misses;
}

/// Moves every temperature by its change and returns the largest change [K], without end where one left what the model
/// can follow. Where water freezes, what a cell holds bends sharply with its temperature: there the held heat moves
/// along its slope, and says the temperature; a search by temperature would jump to and fro over the bend.
double take_changes(const Heap& heap, double dt_s, const State& state, Workspace& work) {
  double largest_k = 0.0;
  for (int i = 0; i < heap.heap_mesh.nodes(); ++i) {
    const bool cell = i < heap.heap_mesh.cells();
    const double most_k = cell ? largest_change_k : largest_duct_change_k;
    const double change = std::clamp(work.heat.change[i], -most_k, most_k);
    double& celsius = work.unknown[i];
    const bool may_freeze = cell && std::min(celsius, celsius + change) < 0.0;
    if (may_freeze) {
      Enthalpy& end = work.end_heat[i];
      const Warmth warmth = warmth_holding(heap, state, i, end.held_j + end.slope_j_k * change,
                                           water_at_end_kg(state, work, dt_s, i), end.liquid_kg);
      celsius = warmth.celsius;
      end.liquid_kg = warmth.liquid_kg;
    } else {
      celsius += change;
    }
    largest_k = std::max(largest_k, std::abs(work.heat.change[i]));
    if (celsius > 98.0 || celsius < -80.0) return std::numeric_limits<double>::infinity();
  }
  return largest_k;
}

/// Newton on the temperatures and the channels' vapour; that vapour is then balanced exactly, and water activity
/// follows in each round. Leaves the net fluxes of the found temperatures in `sum_a` and `sum_b`.
solver::Status find_temperatures(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                                 Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  work.unknown = work.guess_c;
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    const double saturated_pa = weather::saturation_pressure_pa(work.unknown[i]);
    const double water = state.water_kg[i] / coefficients.dry_kg[i];
    work.vapour[i] =
        physics::water_activity(water).value * weather::humidity_ratio(saturated_pa, coefficients.outside.pressure_pa);
    work.activity[i] = water;
  }
  std::copy(state.duct_vapour_ratio.begin(), state.duct_vapour_ratio.end(), work.vapour.begin() + heap_mesh.cells());
  double largest_k = largest_change_k;
  for (int round = 0; round <= most_rounds; ++round) {
    set_vapour(heap, coefficients, dt_s, state, work);
    balance_duct_vapour(heap, coefficients, work);
    sum_fluxes(heap, coefficients, work);
    add_faces(heap, coefficients, work);
    const Misses misses = measure_misses(heap, dt_s, state, work);
    if (!std::isfinite(misses.norm_w)) return solver::Status::not_converged;
    if (largest_k < work.heat_tolerance_k && misses.largest_k < largest_rest_k) return solver::Status::converged;
    assemble_heat(heap_mesh, coefficients, dt_s, work);
    auto& change = work.heat.change;
    std::fill(change.begin(), change.end(), 0.0);
    const auto factors = round == 0 || misses.bent ? solver::Factors::renew : solver::Factors::keep;
    const double tolerance = work.heat_inner_tolerance * misses.norm_w + 1e-12;
    if (work.heat.krylov.solve(work.heat.matrix, work.heat.right, change, tolerance, factors) !=
        solver::Status::converged)
      return solver::Status::not_converged;
    largest_k = take_changes(heap, dt_s, state, work);
    if (!std::isfinite(largest_k)) return solver::Status::not_converged;
  }
  return solver::Status::not_converged;
}

/// A sliver that lost more water than it had draws the rest over its millimetres from the nearest wider cell: both are
/// then equally wet. False when that one has too little as well.
bool wet_slivers(const Heap& heap, const Coefficients& coefficients, State& state) {
  for (const Sliver& sliver : heap.heap_mesh.slivers) {
    for (int l = 0; l < heap.heap_mesh.layers; ++l) {
      const int thin = sliver.column * heap.heap_mesh.layers + l;
      const int wide = sliver.wide * heap.heap_mesh.layers + l;
      if (state.water_kg[thin] >= 0.0) continue;
      const double both_kg = state.water_kg[thin] + state.water_kg[wide];
      if (both_kg < 0.0) return false;
      state.water_kg[thin] =
          both_kg * coefficients.dry_kg[thin] / (coefficients.dry_kg[thin] + coefficients.dry_kg[wide]);
      state.water_kg[wide] = both_kg - state.water_kg[thin];
    }
  }
  return true;
}

/// A sliver cannot hold what the solve left over: it takes the temperature that was found, and the nearest
/// wider cell takes the rest, which is nothing to that one. `energy_j`: of every cell at the end of the step.
void hand_on(const Heap& heap, const State& state, const Workspace& work, std::vector<double>& energy_j) {
  for (const Sliver& sliver : heap.heap_mesh.slivers) {
    for (int l = 0; l < heap.heap_mesh.layers; ++l) {
      const int thin = sliver.column * heap.heap_mesh.layers + l;
      const int wide = sliver.wide * heap.heap_mesh.layers + l;
      const double held_j = enthalpy_at(heap, state, thin, work.unknown[thin], state.water_kg[thin]).held_j;
      energy_j[wide] += energy_j[thin] - held_j;
      energy_j[thin] = held_j;
    }
  }
}

}  // namespace

solver::Status heat_step(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                         Balances& balances, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    work.end_heat[i] = enthalpy_of(heap, state, i);
    work.first_held_j[i] = work.end_heat[i].held_j;
  }
  if (find_temperatures(heap, coefficients, dt_s, state, work) != solver::Status::converged)
    return solver::Status::not_converged;
  // Whatever the solve left over, every cell takes exactly what the fluxes bring. Channels store no heat, so theirs is
  // balanced once more at the cells' final temperatures.
  if (heap_mesh.channels > 0) {
    balance_duct_temperature(heap, coefficients, work);
    sum_fluxes(heap, coefficients, work);
    add_faces(heap, coefficients, work);
  }
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Carried c = through_face(heap, coefficients, work, f);
    (c.energy_w > 0.0 ? balances.energy.out : balances.energy.in) += std::abs(c.energy_w) * dt_s;
    (c.vapour_kg_s > 0.0 ? balances.water.out : balances.water.in) += std::abs(c.vapour_kg_s) * dt_s;
    balances.evaporated_kg += c.vapour_kg_s * dt_s;
  }
  auto& energy_j = work.right;
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    energy_j[i] = work.first_held_j[i] + dt_s * (work.sum_a[i] + work.heat_made_w[i]);
    state.water_kg[i] += dt_s * work.sum_b[i];
    if (state.water_kg[i] < 0.0 && heap_mesh.is_sliver[i / heap_mesh.layers] == 0) return solver::Status::not_converged;
  }
  if (!wet_slivers(heap, coefficients, state)) return solver::Status::not_converged;
  hand_on(heap, state, work, energy_j);
  for (int i = 0; i < heap_mesh.cells(); ++i) {
    const double near_kg = work.end_heat[i].liquid_kg;
    state.temperature_c[i] = warmth_holding(heap, state, i, energy_j[i], state.water_kg[i], near_kg).celsius;
  }
  for (int i = heap_mesh.cells(); i < heap_mesh.nodes(); ++i) state.temperature_c[i] = work.unknown[i];
  std::copy(work.vapour.begin() + heap_mesh.cells(), work.vapour.end(), state.duct_vapour_ratio.begin());
  return solver::Status::converged;
}

}  // namespace stillheap::forecast
