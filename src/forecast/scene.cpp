#include "forecast/scene.hpp"

#include <algorithm>
#include <cmath>

#include "base/constants.hpp"
#include "forecast/enthalpy.hpp"
#include "physics/channel_duct.hpp"
#include "physics/conduction.hpp"
#include "physics/decay_factors.hpp"
#include "physics/films.hpp"
#include "physics/gas.hpp"
#include "physics/permeability.hpp"
#include "physics/temperature_response.hpp"
#include "physics/water_activity.hpp"

namespace stillheap::forecast {
namespace {

using physics::Parameters;

constexpr material::ParticleDensity density;
// A waterlogged cell keeps this much air so that its coefficients stay positive.
constexpr double least_air_space = 0.005;
// So does some air everywhere: a millionth of what passes in a common heap. Without it one matrix would hold the air of
// channels and of cells shut by water and ice, eighteen orders of magnitude apart. Chosen.
constexpr double least_permeability_m2 = 1e-14;
// Resistance of the channel's rim to gas, Pa s/m: a hundredth of a cloth, so that it never governs. Chosen.
constexpr double rim_resistance_pa_s_m = 4.0;

double mean(double a, double b) { return 0.5 * (a + b); }

/// A row of members to size together.
void resize(const Lattice& lattice, Scene& scene) {
  for (auto* cells : {&scene.dry_kg, &scene.volume_m3, &scene.free_air_space, &scene.water_dry, &scene.permeability_m2,
                      &scene.conductivity_w_m_k, &scene.oxygen_d_m2_s, &scene.vapour_d_m2_s, &scene.decay_factor,
                      &scene.vapour_ratio})
    cells->resize(lattice.cells());
  for (auto* nodes : {&scene.dry_air_density_kg_m3, &scene.gas_density_kg_m3, &scene.viscosity_pa_s, &scene.gas_kg})
    nodes->resize(lattice.nodes());
  for (auto* links : {&scene.heat_w_k, &scene.vapour_kg_s, &scene.oxygen_kg_s, &scene.gas_kg_s_pa, &scene.gas_drive_pa,
                      &scene.gas_flow_kg_s})
    links->resize(lattice.links.size());
  scene.face.resize(lattice.faces.size());
  scene.face_flow_kg_s.resize(lattice.faces.size());
}

void set_gas(double celsius, double vapour_pa, double pressure_pa, int node, Scene& scene) {
  scene.dry_air_density_kg_m3[node] = physics::dry_air_density_kg_m3(celsius, vapour_pa, pressure_pa);
  scene.gas_density_kg_m3[node] = weather::moist_air_density_kg_m3(celsius, vapour_pa, pressure_pa);
  scene.viscosity_pa_s[node] = physics::air_viscosity_pa_s(celsius);
}

void set_cell(const Heap& heap, const State& state, int i, Scene& scene) {
  const Lattice& lattice = heap.lattice;
  const Parameters& par = heap.parameters;
  const double celsius = state.temperature_c[i];
  const double dry = dry_kg(heap, state, i);
  const double volume = lattice.plan.area_m2[i / lattice.layers] * state.layer_height_m[lattice.layer_of(i)];
  const double solids =
      ((dry - heap.ash_kg[i]) / density.organic_kg_m3 + heap.ash_kg[i] / density.mineral_kg_m3) / volume;
  const double water = state.water_kg[i] / density.water_kg_m3 / volume;
  // Water's expansion by a tenth as it freezes is left out.
  const double ice = (state.water_kg[i] - enthalpy_of(heap, state, i).liquid_kg) / density.water_kg_m3 / volume;
  const double air = std::max(least_air_space, 1.0 - solids - water);
  scene.dry_kg[i] = dry;
  scene.volume_m3[i] = volume;
  scene.free_air_space[i] = air;
  scene.water_dry[i] = state.water_kg[i] / dry;
  const double vapour_pa = physics::water_activity(scene.water_dry[i]).value * weather::saturation_pressure_pa(celsius);
  set_gas(celsius, vapour_pa, scene.outside.pressure_pa, i, scene);
  scene.vapour_ratio[i] = weather::humidity_ratio(vapour_pa, scene.outside.pressure_pa);
  scene.gas_kg[i] = air * volume * scene.dry_air_density_kg_m3[i];
  const double between = physics::space_between_particles(air, (dry - heap.ash_kg[i]) / volume, par.particle_kg_m3);
  scene.permeability_m2[i] = std::max(least_permeability_m2, physics::permeability_m2(between, par.particle_size_m));
  scene.conductivity_w_m_k[i] = physics::conductivity_w_m_k(solids, water - ice, ice, air, par.conductivity_factor);
  const double pores = physics::pore_diffusion_factor(air);
  scene.oxygen_d_m2_s[i] = pores * physics::oxygen_diffusivity_m2_s(celsius);
  scene.vapour_d_m2_s[i] = pores * physics::vapour_diffusivity_m2_s(celsius);
  scene.decay_factor[i] = par.rate_factor *
                          physics::decay_response(celsius, par.temperature_least_c, par.temperature_best_c,
                                                  par.temperature_most_c, par.cool_factor_10k) *
                          physics::moisture_factor(state.water_kg[i] / (state.water_kg[i] + dry)) *
                          physics::air_space_factor(air);
}

void set_duct_node(const Heap& heap, const State& state, int node, Scene& scene) {
  const Lattice& lattice = heap.lattice;
  const int k = (node - lattice.cells()) / lattice.layers;
  const double ratio = state.duct_vapour_ratio[node - lattice.cells()];
  const double vapour_pa = weather::vapour_pressure_pa(ratio, scene.outside.pressure_pa);
  set_gas(state.temperature_c[node], vapour_pa, scene.outside.pressure_pa, node, scene);
  scene.gas_density_kg_m3[node] = state.duct_density_kg_m3[node - lattice.cells()];
  scene.gas_kg[node] =
      lattice.channel_area_m2[k] * state.layer_height_m[lattice.layer_of(node)] * scene.dry_air_density_kg_m3[node];
}

void set_cell_links(const Lattice& lattice, Scene& scene) {
  for (int k = 0; k < lattice.kind_start[2]; ++k) {
    const auto [a, b] = lattice.links[k];
    const double geometry = scene.metric.over_distance_m[k];
    const double air = mean(scene.dry_air_density_kg_m3[a], scene.dry_air_density_kg_m3[b]);
    scene.heat_w_k[k] = geometry * mean(scene.conductivity_w_m_k[a], scene.conductivity_w_m_k[b]);
    scene.oxygen_kg_s[k] = geometry * air * mean(scene.oxygen_d_m2_s[a], scene.oxygen_d_m2_s[b]);
    scene.vapour_kg_s[k] = geometry * air * mean(scene.vapour_d_m2_s[a], scene.vapour_d_m2_s[b]);
    scene.gas_kg_s_pa[k] = geometry * air * mean(scene.permeability_m2[a], scene.permeability_m2[b]) /
                           mean(scene.viscosity_pa_s[a], scene.viscosity_pa_s[b]);
  }
}

double speed_m_s(const Lattice& lattice, const State& state, const Scene& scene, int link) {
  const int a = lattice.links[link][0];
  return state.duct_flow_kg_s[link - lattice.kind_start[3]] /
         (scene.dry_air_density_kg_m3[a] * lattice.link_plan[link]);
}

void set_duct_links(const Heap& heap, const State& state, Scene& scene) {
  const Lattice& lattice = heap.lattice;
  for (int k = lattice.kind_start[3]; k < lattice.kind_start[4]; ++k) {
    const auto [a, b] = lattice.links[k];
    const double diameter = lattice.channel_diameter_m[(a - lattice.cells()) / lattice.layers];
    const double resistance = physics::duct_resistance_pa_s_m2(speed_m_s(lattice, state, scene, k), diameter,
                                                               scene.gas_density_kg_m3[a], scene.viscosity_pa_s[a]);
    scene.gas_kg_s_pa[k] = scene.metric.over_distance_m[k] * scene.dry_air_density_kg_m3[a] / resistance;
    scene.heat_w_k[k] = scene.metric.over_distance_m[k] * physics::air_conductivity_w_m_k;
    scene.oxygen_kg_s[k] =
        scene.metric.over_distance_m[k] * scene.dry_air_density_kg_m3[a] * physics::still_oxygen_m2_s;
    scene.vapour_kg_s[k] =
        scene.metric.over_distance_m[k] * scene.dry_air_density_kg_m3[a] * physics::still_vapour_m2_s;
  }
}

void set_rim_links(const Heap& heap, const State& state, Scene& scene) {
  const Lattice& lattice = heap.lattice;
  double height = 0.0;
  for (const double h : state.layer_height_m) height += h;
  for (int k = lattice.kind_start[2]; k < lattice.kind_start[3]; ++k) {
    const auto [cell, node] = lattice.links[k];
    const int channel = (node - lattice.cells()) / lattice.layers;
    const double diameter = lattice.channel_diameter_m[channel];
    const int duct_link =
        lattice.kind_start[3] + channel * (lattice.layers - 1) + std::min(lattice.layer_of(node), lattice.layers - 2);
    const double reynolds = std::abs(speed_m_s(lattice, state, scene, duct_link)) * diameter *
                            scene.gas_density_kg_m3[node] / scene.viscosity_pa_s[node];
    const double nusselt = physics::duct_nusselt(reynolds, diameter, height) * heap.parameters.channel_transfer_factor;
    const double area = scene.metric.over_distance_m[k];
    const double air = scene.dry_air_density_kg_m3[node];
    const double celsius = state.temperature_c[node];
    scene.heat_w_k[k] = area * nusselt * physics::air_conductivity_w_m_k / diameter;
    scene.vapour_kg_s[k] = area * nusselt * physics::vapour_diffusivity_m2_s(celsius) / diameter * air;
    scene.oxygen_kg_s[k] = area * nusselt * physics::oxygen_diffusivity_m2_s(celsius) / diameter * air;
    scene.gas_kg_s_pa[k] = area * air / rim_resistance_pa_s_m;
  }
}

/// What lifts air of a density over a rise in the outside's column.
double drive_pa(const Scene& scene, double density_kg_m3, double rise_m) {
  return (scene.outside_density_kg_m3 - density_kg_m3) * constant::gravity_m_s2 * rise_m;
}

void set_link_drives(const Lattice& lattice, int first, Scene& scene) {
  for (std::size_t k = static_cast<std::size_t>(first); k < lattice.links.size(); ++k) {
    const auto [a, b] = lattice.links[k];
    const double inside = mean(scene.gas_density_kg_m3[a], scene.gas_density_kg_m3[b]);
    scene.gas_drive_pa[k] = drive_pa(scene, inside, scene.metric.rise_m[k]);
  }
}

void set_face_drives(const Lattice& lattice, bool mouths_only, Scene& scene) {
  for (std::size_t f = 0; f < lattice.faces.size(); ++f) {
    const Face& face = lattice.faces[f];
    if (mouths_only && face.channel < 0) continue;
    scene.face[f].gas_drive_pa = drive_pa(scene, scene.gas_density_kg_m3[face.node], scene.face[f].rise_m);
  }
}

}  // namespace

double saturated_water_dry(const Heap& heap, const Scene& scene, int i) noexcept {
  const double solids_m3 =
      (scene.dry_kg[i] - heap.ash_kg[i]) / density.organic_kg_m3 + heap.ash_kg[i] / density.mineral_kg_m3;
  return std::max(0.05, (scene.volume_m3[i] - solids_m3) * density.water_kg_m3 / scene.dry_kg[i]);
}

void set_duct_drives(const Lattice& lattice, Scene& scene) noexcept {
  set_link_drives(lattice, lattice.kind_start[3], scene);
  set_face_drives(lattice, true, scene);
}

void set_faces(const Heap& heap, const State& state, Scene& scene);

void set_scene(const Heap& heap, const State& state, const weather::Hour& outside, Scene& scene) {
  const Lattice& lattice = heap.lattice;
  resize(lattice, scene);
  scene.outside = outside;
  const double vapour_pa = outside.humidity * weather::saturation_pressure_pa(outside.air_c);
  scene.outside_vapour_ratio = weather::humidity_ratio(vapour_pa, outside.pressure_pa);
  scene.outside_density_kg_m3 = weather::moist_air_density_kg_m3(outside.air_c, vapour_pa, outside.pressure_pa);
  measure_links(lattice, state.layer_height_m, scene.metric);
  for (int i = 0; i < lattice.cells(); ++i) set_cell(heap, state, i, scene);
  for (int i = lattice.cells(); i < lattice.nodes(); ++i) set_duct_node(heap, state, i, scene);
  set_cell_links(lattice, scene);
  set_duct_links(heap, state, scene);
  set_rim_links(heap, state, scene);
  set_faces(heap, state, scene);
  set_link_drives(lattice, 0, scene);
  set_face_drives(lattice, false, scene);
}

}  // namespace stillheap::forecast
