#include <algorithm>
#include <cmath>

#include "forecast/steps.hpp"
#include "material/salts.hpp"
#include "physics/gas.hpp"
#include "physics/liquid_water.hpp"
#include "physics/retention.hpp"

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
double drains_kg(const Heap& heap, const Scene& scene, const State& state, int i, double dt_s) {
  const double dry = scene.dry_kg[i];
  const double holding = heap.parameters.holding_capacity;
  if (state.water_kg[i] <= holding * dry) return 0.0;
  const double start = enthalpy_of(heap, state, i).liquid_kg / dry;
  if (start <= holding) return 0.0;
  const double drainable = std::max(saturated_water_dry(heap, scene, i) - holding, least_drainable_dry);
  const double area = heap.lattice.plan.area_m2[i / heap.lattice.layers];
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
double share_with_room(const Heap& heap, const Scene& scene, const State& state, int i, double arriving_kg) {
  if (arriving_kg <= 0.0 || !has_ice(heap, state, i)) return 1.0;
  const double room_kg = saturated_water_dry(heap, scene, i) * scene.dry_kg[i] - state.water_kg[i];
  return std::clamp(room_kg / arriving_kg, 0.0, 1.0);
}

void drain_columns(const Heap& heap, const Scene& scene, double dt_s, double arrives_kg_m2, double salt_kg_kg,
                   State& state, Ledger& ledger) {
  const Lattice& lattice = heap.lattice;
  for (int c = 0; c < lattice.columns; ++c) {
    const double water = arrives_kg_m2 * lattice.plan.area_m2[c];
    const double celsius = std::max(scene.outside.air_c, 1.0);
    Stream stream{water, water * water_heat_j_kg_k * celsius, water * salt_kg_kg};
    ledger.energy.in += stream.energy_j;
    ledger.energy.stored += stream.energy_j;
    for (int l = lattice.layers - 1; l >= 0; --l) {
      const int i = c * lattice.layers + l;
      const double share = share_with_room(heap, scene, state, i, stream.water_kg);
      const Stream past = share_of(stream, 1.0 - share);
      take(heap, i, share_of(stream, share), state);
      const Stream drained = part_of(state, i, drains_kg(heap, scene, state, i, dt_s));
      take(heap, i, share_of(drained, -1.0), state);
      stream = {drained.water_kg + past.water_kg, drained.energy_j + past.energy_j, drained.salt_kg + past.salt_kg};
    }
    ledger.water.out += stream.water_kg;
    ledger.water.stored -= stream.water_kg;
    ledger.drained_kg += stream.water_kg;
    ledger.energy.out += stream.energy_j;
    ledger.energy.stored -= stream.energy_j;
    ledger.salt.out += stream.salt_kg;
    ledger.salt_leached_kg += stream.salt_kg;
  }
}

/// What draws water along a link besides the difference of s: between a lower and an upper cell at rest the upper is
/// drier by this.
double rest_difference(const Heap& heap, const Scene& scene, const Workspace& work, int k) {
  if (k < heap.lattice.kind_start[1]) return 0.0;
  const auto [low, high] = heap.lattice.links[k];
  const double share = 0.5 * (work.unknown[low] + work.unknown[high]);
  return scene.metric.rise_m[k] *
         physics::share_lost_upwards_1_m(share, heap.parameters.retention_exponent, heap.parameters.holding_suction_m);
}

/// Along a link from first to second cell: kappa (s_a - s_b - rest), dt and masses in kappa.
struct Creep {
  double kappa_kg = 0.0;
  double rest = 0.0;
};

/// Coefficients of the creep with what the step began with; cells' shares in `work.unknown`, conductances in
/// `work.vapour`. Where there is ice nothing creeps.
Creep creep_of(const Heap& heap, const Scene& scene, const Workspace& work, double dt_s, int k) {
  const auto [a, b] = heap.lattice.links[k];
  const double mean = std::min(work.vapour[a], work.vapour[b]) > 0.0 ? 0.5 * (work.vapour[a] + work.vapour[b]) : 0.0;
  return {dt_s * scene.metric.over_distance_m[k] * mean, rest_difference(heap, scene, work, k)};
}

/// Water moves along its suction: m u_h ds = dt sum kappa (s_b - s_a -+ rest) with s water over holding capacity,
/// implicit in s, with the conductances of the step's beginning.
solver::Status creep(const Heap& heap, const Scene& scene, double dt_s, State& state, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  const double holding = heap.parameters.holding_capacity;
  const auto& diagonal = lattice.pattern.diagonal;
  auto& value = work.matrix.value;
  std::fill(value.begin(), value.end(), 0.0);
  for (int i = 0; i < lattice.nodes(); ++i) {
    const bool cell = i < lattice.cells();
    const double weight = cell ? scene.dry_kg[i] * holding : 1.0;
    value[diagonal[i]] = weight;
    work.unknown[i] = cell ? state.water_kg[i] / weight : 0.0;
    work.right[i] = weight * work.unknown[i];
    if (cell) {
      const bool ice = has_ice(heap, state, i);
      work.vapour[i] =
          ice ? 0.0
              : scene.dry_kg[i] / scene.volume_m3[i] * holding *
                    physics::capillary_diffusivity_m2_s(work.unknown[i], heap.parameters.retention_exponent,
                                                        heap.parameters.capillary_m2_s);
    }
  }
  double scale = 0.0;
  for (const double r : work.right) scale += r * r;
  const int links = lattice.kind_start[2];
  for (int k = 0; k < links; ++k) {
    const auto [a, b] = lattice.links[k];
    const Creep creep = creep_of(heap, scene, work, dt_s, k);
    value[diagonal[a]] += creep.kappa_kg;
    value[diagonal[b]] += creep.kappa_kg;
    value[lattice.places[k].ab] -= creep.kappa_kg;
    value[lattice.places[k].ba] -= creep.kappa_kg;
    work.right[a] += creep.kappa_kg * creep.rest;
    work.right[b] -= creep.kappa_kg * creep.rest;
    work.link_kg[k] = creep.kappa_kg;
    work.link_rest[k] = creep.rest;
  }
  if (work.symmetric.solve(work.matrix, work.right, work.unknown, tolerance_share * std::sqrt(scale)) !=
      solver::Status::converged)
    return solver::Status::not_converged;
  for (int k = 0; k < links; ++k) {
    const auto [a, b] = lattice.links[k];
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

solver::Status water_step(const Heap& heap, const Scene& scene, double dt_s, double sprinkle_kg_s, double rain_kg_s,
                          State& state, Ledger& ledger, Workspace& work) {
  const double copies = heap.lattice.plan.sector.copies();
  const double sprinkled = sprinkle_kg_s * dt_s / copies;
  const double rained = rain_kg_s * dt_s / copies;
  double area = 0.0;
  for (const double a : heap.lattice.plan.area_m2) area += a;
  const double salt_kg_kg = sprinkled + rained > 0.0
                                ? material::salt_in_water_kg_m3(heap.request.sprinkling.conductivity_s_m) / 1000.0 *
                                      sprinkled / (sprinkled + rained)
                                : 0.0;
  ledger.sprinkled_kg += sprinkled;
  ledger.rain_kg += rained;
  ledger.water.in += sprinkled + rained;
  ledger.water.stored += sprinkled + rained;
  ledger.salt.in += salt_kg_kg * (sprinkled + rained);
  drain_columns(heap, scene, dt_s, (sprinkled + rained) / area, salt_kg_kg, state, ledger);
  return creep(heap, scene, dt_s, state, work);
}

}  // namespace stillheap::forecast
