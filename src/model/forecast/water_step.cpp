#include <algorithm>
#include <cmath>

#include "domain/material/salts.hpp"
#include "model/forecast/steps.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/liquid_water.hpp"
#include "model/physics/retention.hpp"

namespace stillheap::forecast {
namespace {

using physics::water_heat_j_kg_k;

// A cell squeezed full still drains from this much water on.
constexpr double least_drainable_dry = 0.05;
// What an unfinished solve may leave over, as a share of all water: a thousandth of it in a year of hourly steps.
constexpr double tolerance_share = 1e-7;

/// Water with the heat and salt it carries.
struct Stream {
  double water_kg = 0.0;
  double energy_j = 0.0;
  double salt_kg = 0.0;
};

/// Puts a stream into a cell or takes it out (negative), keeping energy and salt.
void take(const Heap& heap, int i, const Stream& stream, State& state) {
  if (stream.water_kg == 0.0) return;
  const Enthalpy before = enthalpy_of(heap, state, i);
  state.water_kg[i] += stream.water_kg;
  state.salt_kg[i] += stream.salt_kg;
  state.temperature_c[i] =
      warmth_holding(heap, state, i, before.held_j + stream.energy_j, state.water_kg[i], before.liquid_kg).celsius;
}

Stream part_of(const State& state, int i, double water_kg) {
  const double share = state.water_kg[i] > 0.0 ? water_kg / state.water_kg[i] : 0.0;
  return {water_kg, water_kg * water_heat_j_kg_k * state.temperature_c[i], state.salt_kg[i] * share};
}

/// Water that leaves a cell downwards in the step, and what the pores cannot hold. Ice stays.
double drains_kg(const Heap& heap, const Coefficients& coefficients, const State& state, int i, double dt_s) {
  const double dry = coefficients.dry_kg[i];
  const double holding = heap.parameters.holding_capacity;
  if (state.water_kg[i] <= holding * dry) return 0.0;
  const double start = enthalpy_of(heap, state, i).liquid_kg / dry;
  if (start <= holding) return 0.0;
  const double drainable = std::max(saturated_water_dry(heap, coefficients, i) - holding, least_drainable_dry);
  const double area = heap.heap_mesh.plan.area_m2[i / heap.heap_mesh.layers];
  const double full_kg_m2_s = physics::drainage_kg_m2_s(holding + drainable, holding, holding + drainable,
                                                        heap.parameters.saturated_conductivity_m_s);
  const double share = (start - holding) / drainable;
  const double left = physics::drainable_share_left(share, dt_s * full_kg_m2_s * area / (dry * drainable));
  return (share - left) * drainable * dry;
}

Stream share_of(const Stream& stream, double share) {
  return {share * stream.water_kg, share * stream.energy_j, share * stream.salt_kg};
}

/// Share of the water arriving at a cell that finds room: all of it, but where ice fills the pores.
double share_with_room(const Heap& heap, const Coefficients& coefficients, const State& state, int i,
                       double arriving_kg) {
  if (arriving_kg <= 0.0 || !has_ice(heap, state, i)) return 1.0;
  const double room_kg = saturated_water_dry(heap, coefficients, i) * coefficients.dry_kg[i] - state.water_kg[i];
  return std::clamp(room_kg / arriving_kg, 0.0, 1.0);
}

void drain_columns(const Heap& heap, const Coefficients& coefficients, double dt_s, double arrives_kg_m2,
                   double salt_kg_kg, State& state, Balances& balances) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  for (int c = 0; c < heap_mesh.columns; ++c) {
    const double water = arrives_kg_m2 * heap_mesh.plan.area_m2[c];
    const double celsius = std::max(coefficients.outside.air_c, 1.0);
    Stream stream{water, water * water_heat_j_kg_k * celsius, water * salt_kg_kg};
    balances.energy.in += stream.energy_j;
    for (int l = heap_mesh.layers - 1; l >= 0; --l) {
      const int i = c * heap_mesh.layers + l;
      const double share = share_with_room(heap, coefficients, state, i, stream.water_kg);
      const Stream past = share_of(stream, 1.0 - share);
      take(heap, i, share_of(stream, share), state);
      const Stream drained = part_of(state, i, drains_kg(heap, coefficients, state, i, dt_s));
      take(heap, i, share_of(drained, -1.0), state);
      stream = {drained.water_kg + past.water_kg, drained.energy_j + past.energy_j, drained.salt_kg + past.salt_kg};
    }
    balances.water.out += stream.water_kg;
    balances.drained_kg += stream.water_kg;
    balances.energy.out += stream.energy_j;
    balances.salt.out += stream.salt_kg;
    balances.salt_leached_kg += stream.salt_kg;
  }
}

/// What draws water along a link besides the difference of s: between a lower and an upper cell at rest the upper is
/// drier by this.
double rest_difference(const Heap& heap, const Coefficients& coefficients, const Workspace& work, int k) {
  if (k < heap.heap_mesh.kind_start[1]) return 0.0;
  const auto [low, high] = heap.heap_mesh.links[k];
  const double share = 0.5 * (work.unknown[low] + work.unknown[high]);
  return coefficients.metric.rise_m[k] *
         physics::share_lost_upwards_1_m(share, heap.parameters.retention_exponent, heap.parameters.holding_suction_m);
}

/// Along a link from first to second cell: kappa (s_a - s_b - rest), dt and masses in kappa.
struct Creep {
  double kappa_kg = 0.0;
  double rest = 0.0;
};

/// Coefficients of the capillary_flux with what the step began with; cells' shares in `work.unknown`, conductances in
/// `work.vapour`. Where there is ice nothing creeps.
Creep creep_of(const Heap& heap, const Coefficients& coefficients, const Workspace& work, double dt_s, int k) {
  const auto [a, b] = heap.heap_mesh.links[k];
  const double mean = std::min(work.vapour[a], work.vapour[b]) > 0.0 ? 0.5 * (work.vapour[a] + work.vapour[b]) : 0.0;
  return {dt_s * coefficients.metric.over_distance_m[k] * mean, rest_difference(heap, coefficients, work, k)};
}

/// Water moves along its suction: m u_h ds = dt sum kappa (s_b - s_a -+ rest) with s water over holding capacity,
/// implicit in s, with the conductances of the step's beginning.
solver::Status capillary_flux(const Heap& heap, const Coefficients& coefficients, double dt_s, State& state,
                              Workspace& work) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const double holding = heap.parameters.holding_capacity;
  const auto& diagonal = heap_mesh.pattern.diagonal;
  auto& value = work.matrix.value;
  std::fill(value.begin(), value.end(), 0.0);
  for (int i = 0; i < heap_mesh.nodes(); ++i) {
    const bool cell = i < heap_mesh.cells();
    const double weight = cell ? coefficients.dry_kg[i] * holding : 1.0;
    value[diagonal[i]] = weight;
    work.unknown[i] = cell ? state.water_kg[i] / weight : 0.0;
    work.right[i] = weight * work.unknown[i];
    if (cell) {
      const bool ice = has_ice(heap, state, i);
      work.vapour[i] =
          ice ? 0.0
              : coefficients.dry_kg[i] / coefficients.volume_m3[i] * holding *
                    physics::capillary_diffusivity_m2_s(work.unknown[i], heap.parameters.retention_exponent,
                                                        heap.parameters.capillary_m2_s);
    }
  }
  double scale = 0.0;
  for (const double r : work.right) scale += r * r;
  const int links = heap_mesh.kind_start[2];
  for (int k = 0; k < links; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const Creep capillary_flux = creep_of(heap, coefficients, work, dt_s, k);
    value[diagonal[a]] += capillary_flux.kappa_kg;
    value[diagonal[b]] += capillary_flux.kappa_kg;
    value[heap_mesh.places[k].ab] -= capillary_flux.kappa_kg;
    value[heap_mesh.places[k].ba] -= capillary_flux.kappa_kg;
    work.right[a] += capillary_flux.kappa_kg * capillary_flux.rest;
    work.right[b] -= capillary_flux.kappa_kg * capillary_flux.rest;
    work.link_kg[k] = capillary_flux.kappa_kg;
    work.link_rest[k] = capillary_flux.rest;
  }
  if (work.symmetric.solve(work.matrix, work.right, work.unknown, tolerance_share * std::sqrt(scale)) !=
      solver::Status::converged)
    return solver::Status::not_converged;
  for (int k = 0; k < links; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double flow = work.link_kg[k] * (work.unknown[a] - work.unknown[b] - work.link_rest[k]);
    const int from = flow > 0.0 ? a : b;
    const int to = flow > 0.0 ? b : a;
    if (std::abs(flow) >= state.water_kg[from]) return solver::Status::not_converged;
    const Stream stream = part_of(state, from, std::abs(flow));
    take(heap, from, share_of(stream, -1.0), state);
    take(heap, to, stream, state);
  }
  return solver::Status::converged;
}

}  // namespace

solver::Status water_step(const Heap& heap, const Coefficients& coefficients, double dt_s, double sprinkle_kg_s,
                          double rain_kg_s, State& state, Balances& balances, Workspace& work) {
  const double copies = heap.heap_mesh.plan.sector.copies();
  const double sprinkled = sprinkle_kg_s * dt_s / copies;
  const double rained = rain_kg_s * dt_s / copies;
  double area = 0.0;
  for (const double a : heap.heap_mesh.plan.area_m2) area += a;
  const double salt_kg_kg = sprinkled + rained > 0.0
                                ? material::salt_in_water_kg_m3(heap.request.sprinkling.conductivity_s_m) / 1000.0 *
                                      sprinkled / (sprinkled + rained)
                                : 0.0;
  balances.sprinkled_kg += sprinkled;
  balances.rain_kg += rained;
  balances.water.in += sprinkled + rained;
  balances.salt.in += salt_kg_kg * (sprinkled + rained);
  drain_columns(heap, coefficients, dt_s, (sprinkled + rained) / area, salt_kg_kg, state, balances);
  return capillary_flux(heap, coefficients, dt_s, state, work);
}

}  // namespace stillheap::forecast
