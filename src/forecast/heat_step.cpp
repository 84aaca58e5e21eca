#include <algorithm>
#include <cmath>

#include "forecast/steps.hpp"
#include "forecast/vapour.hpp"
#include "physics/gas.hpp"
#include "physics/water_activity.hpp"

namespace stillheap::forecast {
namespace {

using physics::dry_air_heat_j_kg_k;
using physics::vapour_enthalpy_j_kg;
using physics::vapour_heat_j_kg_k;
using physics::water_heat_j_kg_k;

constexpr int most_rounds = 25;
constexpr double largest_change_k = 15.0;
// A cell takes exactly what its fluxes bring, so an error of the fluxes lands in the cell's temperature: by so much at
// most. Small cells exchange many times what they hold; slivers hand their error on. Chosen.
constexpr double largest_rest_k = 0.1;

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

/// Net energy and vapour into every node, by the links from `first` on.
void sum_fluxes(const Heap& heap, const Scene& scene, Workspace& work, std::size_t first = 0) {
  const Lattice& lattice = heap.lattice;
  auto& energy = work.sum_a;
  auto& vapour = work.sum_b;
  std::fill(energy.begin(), energy.end(), 0.0);
  std::fill(vapour.begin(), vapour.end(), 0.0);
  for (std::size_t k = first; k < lattice.links.size(); ++k) {
    const auto [a, b] = lattice.links[k];
    const Carried c = carried(scene.heat_w_k[k], scene.vapour_kg_s[k], scene.gas_flow_kg_s[k], work.unknown[a],
                              work.unknown[b], work.vapour[a], work.vapour[b]);
    energy[a] -= c.energy_w;
    energy[b] += c.energy_w;
    vapour[a] -= c.vapour_kg_s;
    vapour[b] += c.vapour_kg_s;
  }
}

Carried through_face(const Heap& heap, const Scene& scene, const Workspace& work, std::size_t f) {
  const int i = heap.lattice.faces[f].node;
  const FaceExchange& face = scene.face[f];
  Carried c = carried(0.0, face.vapour_kg_s, scene.face_flow_kg_s[f], work.unknown[i], scene.outside.air_c,
                      work.vapour[i], scene.outside_vapour_ratio);
  c.energy_w += face.heat_w_k * (work.unknown[i] - face.apparent_c);
  return c;
}

void add_faces(const Heap& heap, const Scene& scene, Workspace& work) {
  for (std::size_t f = 0; f < heap.lattice.faces.size(); ++f) {
    const int i = heap.lattice.faces[f].node;
    const Carried c = through_face(heap, scene, work, f);
    work.sum_a[i] -= c.energy_w;
    work.sum_b[i] -= c.vapour_kg_s;
  }
}

/// Matrix of the node balances' derivatives by temperature, in W/K.
void assemble(const Heap& heap, const Scene& scene, double dt_s, const State& state, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  const auto& diagonal = lattice.pattern.diagonal;
  auto& value = work.matrix.value;
  std::fill(value.begin(), value.end(), 0.0);
  const auto slope_of = [&](int node) { return node < lattice.cells() ? work.vapour_slope[node] : 0.0; };
  const auto liquid_of = [&](int node) {
    return node < lattice.cells() ? water_heat_j_kg_k * work.unknown[node] : vapour_enthalpy_j_kg(work.unknown[node]);
  };
  for (std::size_t k = 0; k < lattice.links.size(); ++k) {
    const auto [a, b] = lattice.links[k];
    const double from_a = std::max(scene.gas_flow_kg_s[k], 0.0);
    const double from_b = std::max(-scene.gas_flow_kg_s[k], 0.0);
    const double air_a = from_a * (dry_air_heat_j_kg_k + work.vapour[a] * vapour_heat_j_kg_k);
    const double air_b = from_b * (dry_air_heat_j_kg_k + work.vapour[b] * vapour_heat_j_kg_k);
    const double vapour_a = (from_a + scene.vapour_kg_s[k]) * slope_of(a);
    const double vapour_b = (from_b + scene.vapour_kg_s[k]) * slope_of(b);
    const double latent_a = vapour_enthalpy_j_kg(work.unknown[a]);
    const double latent_b = vapour_enthalpy_j_kg(work.unknown[b]);
    value[diagonal[a]] += scene.heat_w_k[k] + air_a + vapour_a * (latent_a - liquid_of(a));
    value[lattice.places[k].ab] -= scene.heat_w_k[k] + air_b + vapour_b * (latent_b - liquid_of(a));
    value[diagonal[b]] += scene.heat_w_k[k] + air_b + vapour_b * (latent_b - liquid_of(b));
    value[lattice.places[k].ba] -= scene.heat_w_k[k] + air_a + vapour_a * (latent_a - liquid_of(b));
  }
  // A rim that warms wets its channel's air, which then takes less from it.
  for (int k = lattice.kind_start[2]; k < lattice.kind_start[3]; ++k) {
    const auto [cell, duct] = lattice.links[k];
    const double back = scene.vapour_kg_s[k] + std::max(-scene.gas_flow_kg_s[k], 0.0);
    value[diagonal[cell]] -=
        back * work.vapour_slope[duct] * (vapour_enthalpy_j_kg(work.unknown[duct]) - liquid_of(cell));
  }
  for (std::size_t f = 0; f < lattice.faces.size(); ++f) {
    const int i = lattice.faces[f].node;
    const double flow = std::max(scene.face_flow_kg_s[f], 0.0);
    const double latent = vapour_enthalpy_j_kg(work.unknown[i]) - liquid_of(i);
    value[diagonal[i]] +=
        scene.face[f].heat_w_k + flow * dry_air_heat_j_kg_k + (flow + scene.face[f].vapour_kg_s) * slope_of(i) * latent;
  }
  for (int i = 0; i < lattice.cells(); ++i) value[diagonal[i]] += heat_capacity_j_k(heap, state, i) / dt_s;
}

/// Net power into every node less what its cell takes up [W], to `right`, and its norm to `norm_w`. Returns the
/// largest temperature by which the fluxes miss a cell [K], slivers left out.
double measure_misses(const Heap& heap, double dt_s, const State& state, Workspace& work, double& norm_w) {
  double sum_w2 = 0.0, largest_k = 0.0;
  for (int i = 0; i < heap.lattice.nodes(); ++i) {
    double balance_w = work.sum_a[i];
    if (i < heap.lattice.cells()) {
      const double capacity_w_k = heat_capacity_j_k(heap, state, i) / dt_s;
      balance_w += work.heat_made_w[i] - water_heat_j_kg_k * work.unknown[i] * work.sum_b[i] -
                   capacity_w_k * (work.unknown[i] - work.first_temperature_c[i]);
      if (heap.lattice.is_sliver[i / heap.lattice.layers] == 0)
        largest_k = std::max(largest_k, std::abs(balance_w) / capacity_w_k);
    }
    work.right[i] = balance_w;
    sum_w2 += balance_w * balance_w;
  }
  norm_w = std::sqrt(sum_w2);
  return largest_k;
}

/// Newton on temperature. Vapour of the channels and water activity follow in each round. Leaves the net fluxes of the
/// found temperatures in `sum_a` and `sum_b`.
solver::Status find_temperatures(const Heap& heap, const Scene& scene, double dt_s, State& state, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  work.unknown = work.guess_c;
  for (int i = 0; i < lattice.cells(); ++i) {
    const double saturated_pa = weather::saturation_pressure_pa(work.unknown[i]);
    const double water = state.water_kg[i] / scene.dry_kg[i];
    work.vapour[i] =
        physics::water_activity(water).value * weather::humidity_ratio(saturated_pa, scene.outside.pressure_pa);
    work.activity[i] = water;
  }
  std::copy(state.duct_vapour_ratio.begin(), state.duct_vapour_ratio.end(), work.vapour.begin() + lattice.cells());
  double largest_k = largest_change_k;
  for (int round = 0; round <= most_rounds; ++round) {
    set_vapour(heap, scene, dt_s, state, work);
    balance_duct_vapour(heap, scene, state, work);
    sum_fluxes(heap, scene, work);
    add_faces(heap, scene, work);
    double norm_w = 0.0;
    const double rest_k = measure_misses(heap, dt_s, state, work, norm_w);
    if (!std::isfinite(norm_w)) return solver::Status::not_converged;
    if (largest_k < work.heat_tolerance_k && rest_k < largest_rest_k) return solver::Status::converged;
    assemble(heap, scene, dt_s, state, work);
    auto& change = work.sum_a;
    std::fill(change.begin(), change.end(), 0.0);
    const auto factors = round == 0 ? solver::Factors::renew : solver::Factors::keep;
    const double tolerance = work.heat_inner_tolerance * norm_w + 1e-12;
    if (work.general.solve(work.matrix, work.right, change, tolerance, factors) != solver::Status::converged)
      return solver::Status::not_converged;
    largest_k = 0.0;
    for (int i = 0; i < lattice.nodes(); ++i) {
      work.unknown[i] += std::clamp(change[i], -largest_change_k, largest_change_k);
      largest_k = std::max(largest_k, std::abs(change[i]));
      if (work.unknown[i] > 98.0 || work.unknown[i] < -80.0) return solver::Status::not_converged;
    }
  }
  return solver::Status::not_converged;
}

/// Channels store no heat, so what a finished round leaves there would be lost: balance their air once more
/// at the cells' final temperatures, with the matrix of the last round.
void balance_duct_temperature(const Heap& heap, const Scene& scene, Workspace& work) {
  const Lattice& lattice = heap.lattice;
  for (int pass = 0; pass < 3; ++pass) {
    sum_fluxes(heap, scene, work, lattice.kind_start[2]);  // the only links that touch channels
    add_faces(heap, scene, work);
    for (int i = lattice.cells(); i < lattice.nodes(); ++i) {
      const int d = i - lattice.cells();
      work.column_a[d] = work.column_c[d] = 0.0;
      work.column_b[d] = work.matrix.value[lattice.pattern.diagonal[i]];
      work.right[d] = work.sum_a[i];
    }
    for (int k = lattice.kind_start[3]; k < lattice.kind_start[4]; ++k) {
      const int d = lattice.links[k][0] - lattice.cells();
      work.column_c[d] = work.matrix.value[lattice.places[k].ab];
      work.column_a[d + 1] = work.matrix.value[lattice.places[k].ba];
    }
    solve_tridiagonal(work.column_a, work.column_b, work.column_c, work.right.data(),
                      lattice.channels * lattice.layers);
    for (int i = lattice.cells(); i < lattice.nodes(); ++i) work.unknown[i] += work.right[i - lattice.cells()];
  }
}

/// A sliver that lost more water than it had draws the rest over its millimetres from the nearest wider cell: both are
/// then equally wet. False when that one has too little as well.
bool wet_slivers(const Heap& heap, const Scene& scene, State& state) {
  for (const Sliver& sliver : heap.lattice.slivers) {
    for (int l = 0; l < heap.lattice.layers; ++l) {
      const int thin = sliver.column * heap.lattice.layers + l;
      const int wide = sliver.wide * heap.lattice.layers + l;
      if (state.water_kg[thin] >= 0.0) continue;
      const double both_kg = state.water_kg[thin] + state.water_kg[wide];
      if (both_kg < 0.0) return false;
      state.water_kg[thin] = both_kg * scene.dry_kg[thin] / (scene.dry_kg[thin] + scene.dry_kg[wide]);
      state.water_kg[wide] = both_kg - state.water_kg[thin];
    }
  }
  return true;
}

/// A sliver cannot hold what the solve left over: it takes the temperature that was found, and the nearest
/// wider cell takes the rest, which is nothing to that one. `energy_j`: of every cell at the end of the step.
void hand_on(const Heap& heap, const State& state, const Workspace& work, std::vector<double>& energy_j) {
  for (const Sliver& sliver : heap.lattice.slivers) {
    for (int l = 0; l < heap.lattice.layers; ++l) {
      const int thin = sliver.column * heap.lattice.layers + l;
      const int wide = sliver.wide * heap.lattice.layers + l;
      const double held_j = heat_capacity_j_k(heap, state, thin) * work.unknown[thin];
      energy_j[wide] += energy_j[thin] - held_j;
      energy_j[thin] = held_j;
    }
  }
}

/// A channel's air answers its draft within seconds: more draft, cooler air, less draft. Taking the new density
/// only halfway lets the two settle where a lagged value would swing between strong and weak.
void remember_duct_density(const Lattice& lattice, const Scene& scene, State& state) {
  for (int i = lattice.cells(); i < lattice.nodes(); ++i) {
    const int d = i - lattice.cells();
    const double vapour_pa = weather::vapour_pressure_pa(state.duct_vapour_ratio[d], scene.outside.pressure_pa);
    const double density =
        weather::moist_air_density_kg_m3(state.temperature_c[i], vapour_pa, scene.outside.pressure_pa);
    state.duct_density_kg_m3[d] = 0.5 * (state.duct_density_kg_m3[d] + density);
  }
}

}  // namespace

solver::Status heat_step(const Heap& heap, const Scene& scene, double dt_s, State& state, Ledger& ledger,
                         Workspace& work) {
  const Lattice& lattice = heap.lattice;
  if (find_temperatures(heap, scene, dt_s, state, work) != solver::Status::converged)
    return solver::Status::not_converged;
  // Whatever the solve left over, every cell takes exactly what the fluxes bring.
  if (lattice.channels > 0) {
    balance_duct_temperature(heap, scene, work);
    sum_fluxes(heap, scene, work);
    add_faces(heap, scene, work);
  }
  for (std::size_t f = 0; f < lattice.faces.size(); ++f) {
    const Carried c = through_face(heap, scene, work, f);
    (c.energy_w > 0.0 ? ledger.energy.out : ledger.energy.in) += std::abs(c.energy_w) * dt_s;
    (c.vapour_kg_s > 0.0 ? ledger.water.out : ledger.water.in) += std::abs(c.vapour_kg_s) * dt_s;
    ledger.evaporated_kg += c.vapour_kg_s * dt_s;
  }
  auto& energy_j = work.right;
  for (int i = 0; i < lattice.cells(); ++i) {
    const double before_j = heat_capacity_j_k(heap, state, i) * work.first_temperature_c[i];
    energy_j[i] = before_j + dt_s * (work.sum_a[i] + work.heat_made_w[i]);
    state.water_kg[i] += dt_s * work.sum_b[i];
    if (state.water_kg[i] < 0.0 && lattice.is_sliver[i / lattice.layers] == 0) return solver::Status::not_converged;
    ledger.energy.made += dt_s * work.heat_made_w[i];
    ledger.energy.stored += energy_j[i] - before_j;
    ledger.water.stored += dt_s * work.sum_b[i];
  }
  if (!wet_slivers(heap, scene, state)) return solver::Status::not_converged;
  hand_on(heap, state, work, energy_j);
  for (int i = 0; i < lattice.cells(); ++i) state.temperature_c[i] = energy_j[i] / heat_capacity_j_k(heap, state, i);
  for (int i = lattice.cells(); i < lattice.nodes(); ++i) state.temperature_c[i] = work.unknown[i];
  remember_duct_density(lattice, scene, state);
  return solver::Status::converged;
}

}  // namespace stillheap::forecast
