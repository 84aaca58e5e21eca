#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "model/forecast/steps.hpp"
#include "model/physics/decay_factors.hpp"
#include "model/physics/gas.hpp"

namespace stillheap::forecast {
namespace {

constexpr int most_rounds = 30;
// Share of the uptake that a finished solve may leave unbalanced; the balances shows what it left.
constexpr double tolerance_share = 1e-7;
// What rounding leaves of the sums over the transport, which is all there is where nothing decays (below the least
// or above the most temperature of decay).
constexpr double rounding_share = 1e-14;

/// Rate of every pool of a cell at an oxygen ratio, before the oxygen factor, and that factor.
struct Uptake {
  double kg_s = 0.0;
  double slope = 0.0;
};

/// Oxygen by which the factor is reached, continued as a straight line below zero so that Newton stays on course.
struct Factor {
  double value;
  double slope;
};
Factor oxygen_factor_of(double oxygen_ratio, double half_percent) {
  constexpr double percent_per_ratio = 100.0 * constant::molar_mass_dry_air_kg_mol / constant::molar_mass_oxygen_kg_mol;
  const double percent = percent_per_ratio * oxygen_ratio;
  if (percent <= 0.0) return {percent / half_percent, percent_per_ratio / half_percent};
  const double sum = percent + half_percent;
  return {physics::oxygen_factor(percent, half_percent), percent_per_ratio * half_percent / (sum * sum)};
}

/// Backward Euler of the pools inside the uptake: X_new = X / (1 + dt k f), uptake = Y k f X_new.
Uptake uptake_of(const Heap& heap, const Coefficients& coefficients, const State& state, int i, double dt_s,
                 double oxygen_ratio) {
  const auto& rate = heap.request.blend.pool_rate_20c_per_s;
  const Factor factor = oxygen_factor_of(oxygen_ratio, heap.parameters.oxygen_half_percent);
  Uptake uptake;
  for (std::size_t p = 0; p < pools; ++p) {
    const double k = rate[p] * coefficients.decay_factor[i];
    const double held = 1.0 + dt_s * k * std::max(factor.value, 0.0);
    uptake.kg_s += heap.parameters.oxygen_yield * k * factor.value * state.pool_kg[p][i] / held;
    uptake.slope += heap.parameters.oxygen_yield * k * factor.slope * state.pool_kg[p][i] / (held * held);
  }
  return uptake;
}

void assemble_transport(const Heap& heap, const Coefficients& coefficients, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const auto& diagonal = heap_mesh.pattern.diagonal;
  auto& value = work.matrix.value;
  std::fill(value.begin(), value.end(), 0.0);
  for (std::size_t k = 0; k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const auto [from_a, from_b] = carriers(coefficients.oxygen_kg_s[k], coefficients.gas_flow_kg_s[k]);
    value[diagonal[a]] += from_a;
    value[heap_mesh.places[k].ab] -= from_b;
    value[diagonal[b]] += from_b;
    value[heap_mesh.places[k].ba] -= from_a;
  }
  std::fill(work.sum_a.begin(), work.sum_a.end(), 0.0);  // comes in from outside
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const int i = heap_mesh.faces[f].node;
    const auto [out, in] = carriers(coefficients.face[f].oxygen_kg_s, coefficients.face_flow_kg_s[f]);
    value[diagonal[i]] += out;
    work.sum_a[i] += in * physics::oxygen_outside;
  }
}

/// Newton on the node balances. The transport part is linear and kept aside in sum_b.
solver::Status find_oxygen(const Heap& heap, const Coefficients& coefficients, double dt_s, const State& state,
                           Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const auto& diagonal = heap_mesh.pattern.diagonal;
  work.unknown = state.oxygen_ratio;
  for (int i = 0; i < heap_mesh.nodes(); ++i)
    work.sum_b[i] = work.matrix.value[diagonal[i]] + coefficients.gas_kg[i] / dt_s;
  for (int round = 0; round < most_rounds; ++round) {
    double used = 0.0, miss2 = 0.0, moved2 = 0.0;
    for (int i = 0; i < heap_mesh.nodes(); ++i) work.matrix.value[diagonal[i]] = work.sum_b[i];
    solver::multiply(work.matrix, work.unknown.data(), work.right.data());
    for (int i = 0; i < heap_mesh.nodes(); ++i) {
      moved2 += work.sum_b[i] * work.sum_b[i] * work.unknown[i] * work.unknown[i];
      work.right[i] = work.sum_a[i] + coefficients.gas_kg[i] / dt_s * state.oxygen_ratio[i] - work.right[i];
      if (i < heap_mesh.cells()) {
        const Uptake uptake = uptake_of(heap, coefficients, state, i, dt_s, work.unknown[i]);
        work.right[i] -= uptake.kg_s;
        work.matrix.value[diagonal[i]] += uptake.slope;
        used += uptake.kg_s;
      }
      miss2 += work.right[i] * work.right[i];
    }
    const double miss = std::sqrt(miss2);
    if (!std::isfinite(miss)) return solver::Status::not_converged;
    const double rounding = rounding_share * std::sqrt(moved2);
    if (miss <= tolerance_share * std::abs(used) + rounding) return solver::Status::converged;
    std::fill(work.vapour.begin(), work.vapour.end(), 0.0);  // the correction
    const double tolerance = std::max({1e-3 * miss, 0.3 * tolerance_share * std::abs(used), 0.3 * rounding});
    const auto factors = round == 0 ? solver::Factors::renew : solver::Factors::keep;
    if (work.general.solve(work.matrix, work.right, work.vapour, tolerance, factors) != solver::Status::converged)
      return solver::Status::not_converged;
    for (int i = 0; i < heap_mesh.nodes(); ++i) work.unknown[i] += work.vapour[i];
  }
  return solver::Status::not_converged;
}

void book_faces(const Heap& heap, const Coefficients& coefficients, double dt_s, const Workspace& work,
                Balances& balances) {
  for (std::size_t f = 0; f < heap.heap_mesh.faces.size(); ++f) {
    const double inside = work.unknown[heap.heap_mesh.faces[f].node];
    const double flow = coefficients.face_flow_kg_s[f];
    const double out = coefficients.face[f].oxygen_kg_s * (inside - physics::oxygen_outside) +
                       flow * (flow > 0.0 ? inside : physics::oxygen_outside);
    (out > 0.0 ? balances.oxygen.out : balances.oxygen.in) += std::abs(out) * dt_s;
  }
}

/// What a cell's solids lose with the oxygen that was found, and the water and heat that makes.
void decay(const Heap& heap, const Coefficients& coefficients, double dt_s, int i, State& state, Balances& balances,
           Workspace& work) {
  work.heat_made_w[i] = 0.0;
  if (coefficients.decay_factor[i] == 0.0) return;
  const physics::Parameters& par = heap.parameters;
  const double factor = oxygen_factor_of(state.oxygen_ratio[i], par.oxygen_half_percent).value;
  const double held_before_j = enthalpy_of(heap, state, i).held_j;
  double lost = 0.0, decayed = 0.0;
  for (std::size_t p = 0; p < pools; ++p) {
    const double k = heap.request.blend.pool_rate_20c_per_s[p] * coefficients.decay_factor[i] * factor;
    const double before = state.pool_kg[p][i];
    state.pool_kg[p][i] = before / (1.0 + dt_s * k);
    lost += before - state.pool_kg[p][i];
    decayed += dt_s * k * state.pool_kg[p][i];  // what the law says; what the cell lost is measured on the state
  }
  const double oxygen = lost * par.oxygen_yield;
  const double water = lost * par.water_yield;
  state.water_kg[i] += water;
  balances.solids.out += decayed;
  balances.oxygen.made -= decayed * par.oxygen_yield;
  balances.oxygen_used_kg += oxygen;
  balances.water.made += decayed * par.water_yield;
  balances.water_made_kg += water;
  // What the lost solids and the new water hold at the cell's temperature is carried off and brought in. Where that
  // water freezes, its heat is released.
  const double turned = state.temperature_c[i] * (water * physics::water_heat_j_kg_k - lost * par.solids_heat_j_kg_k);
  const double held_more_j = enthalpy_of(heap, state, i).held_j - held_before_j;
  const double made_j = oxygen * par.heat_per_oxygen_j_kg + turned;
  work.heat_made_w[i] = (made_j - held_more_j) / dt_s;
  balances.energy.made += made_j;
}

}  // namespace

solver::Status oxygen_step(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                           Balances& balances, Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  assemble_transport(heap, coefficients, work);
  if (find_oxygen(heap, coefficients, dt_s, state, work) != solver::Status::converged)
    return solver::Status::not_converged;
  book_faces(heap, coefficients, dt_s, work, balances);
  for (int i = 0; i < heap_mesh.nodes(); ++i) {
    work.unknown[i] = std::max(work.unknown[i], 0.0);  // rounding only: the matrix keeps it positive
    state.oxygen_ratio[i] = work.unknown[i];
  }
  for (int i = 0; i < heap_mesh.cells(); ++i) decay(heap, coefficients, dt_s, i, state, balances, work);
  return solver::Status::converged;
}

}  // namespace stillheap::forecast
