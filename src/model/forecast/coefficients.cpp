#include "model/forecast/coefficients.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "model/forecast/enthalpy.hpp"
#include "model/physics/channel_duct.hpp"
#include "model/physics/conduction.hpp"
#include "model/physics/decay_factors.hpp"
#include "model/physics/films.hpp"
#include "model/physics/gas.hpp"
#include "model/physics/permeability.hpp"
#include "model/physics/temperature_response.hpp"
#include "model/physics/water_activity.hpp"

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
void resize(const HeapMesh& heap_mesh, Coefficients& coefficients) {
  for (auto* cells :
       {&coefficients.dry_kg, &coefficients.volume_m3, &coefficients.free_air_space, &coefficients.water_dry,
        &coefficients.permeability_m2, &coefficients.conductivity_w_m_k, &coefficients.oxygen_d_m2_s,
        &coefficients.vapour_d_m2_s, &coefficients.decay_factor, &coefficients.vapour_ratio})
    cells->resize(heap_mesh.cells());
  for (auto* nodes : {&coefficients.dry_air_density_kg_m3, &coefficients.gas_density_kg_m3,
                      &coefficients.viscosity_pa_s, &coefficients.gas_kg})
    nodes->resize(heap_mesh.nodes());
  for (auto* links : {&coefficients.heat_w_k, &coefficients.vapour_kg_s, &coefficients.oxygen_kg_s,
                      &coefficients.gas_kg_s_pa, &coefficients.gas_drive_pa, &coefficients.gas_flow_kg_s})
    links->resize(heap_mesh.links.size());
  coefficients.face.resize(heap_mesh.faces.size());
  coefficients.face_flow_kg_s.resize(heap_mesh.faces.size());
}

void set_gas(double celsius, double vapour_pa, double pressure_pa, int node, Coefficients& coefficients) {
  coefficients.dry_air_density_kg_m3[node] = physics::dry_air_density_kg_m3(celsius, vapour_pa, pressure_pa);
  coefficients.gas_density_kg_m3[node] = weather::moist_air_density_kg_m3(celsius, vapour_pa, pressure_pa);
  coefficients.viscosity_pa_s[node] = physics::air_viscosity_pa_s(celsius);
}

void set_cell(const Heap& heap, const State& state, int i, Coefficients& coefficients) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const Parameters& par = heap.parameters;
  const double celsius = state.temperature_c[i];
  const double dry = dry_kg(heap, state, i);
  const double volume = heap_mesh.plan.area_m2[i / heap_mesh.layers] * state.layer_height_m[heap_mesh.layer_of(i)];
  const double solids =
      ((dry - heap.ash_kg[i]) / density.organic_kg_m3 + heap.ash_kg[i] / density.mineral_kg_m3) / volume;
  const double water = state.water_kg[i] / density.water_kg_m3 / volume;
  // Water's expansion by a tenth as it freezes is left out.
  const double ice = (state.water_kg[i] - enthalpy_of(heap, state, i).liquid_kg) / density.water_kg_m3 / volume;
  const double air = std::max(least_air_space, 1.0 - solids - water);
  coefficients.dry_kg[i] = dry;
  coefficients.volume_m3[i] = volume;
  coefficients.free_air_space[i] = air;
  coefficients.water_dry[i] = state.water_kg[i] / dry;
  const double vapour_pa =
      physics::water_activity(coefficients.water_dry[i]).value * weather::saturation_pressure_pa(celsius);
  set_gas(celsius, vapour_pa, coefficients.outside.pressure_pa, i, coefficients);
  coefficients.vapour_ratio[i] = weather::humidity_ratio(vapour_pa, coefficients.outside.pressure_pa);
  coefficients.gas_kg[i] = air * volume * coefficients.dry_air_density_kg_m3[i];
  const double between = physics::space_between_particles(air, (dry - heap.ash_kg[i]) / volume, par.particle_kg_m3);
  coefficients.permeability_m2[i] =
      std::max(least_permeability_m2, physics::permeability_m2(between, par.particle_size_m));
  coefficients.conductivity_w_m_k[i] =
      physics::conductivity_w_m_k(solids, water - ice, ice, air, par.conductivity_factor);
  const double pores = physics::pore_diffusion_factor(air);
  coefficients.oxygen_d_m2_s[i] = pores * physics::oxygen_diffusivity_m2_s(celsius);
  coefficients.vapour_d_m2_s[i] = pores * physics::vapour_diffusivity_m2_s(celsius);
  coefficients.decay_factor[i] =
      par.rate_factor *
      physics::decay_response(celsius, par.temperature_least_c, par.temperature_best_c, par.temperature_most_c,
                              par.cool_factor_10k) *
      physics::moisture_factor(state.water_kg[i] / (state.water_kg[i] + dry), par.moisture_half_wet) *
      physics::air_space_factor(air);
}

void set_duct_node(const Heap& heap, const State& state, int node, Coefficients& coefficients) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  const int k = (node - heap_mesh.cells()) / heap_mesh.layers;
  const double ratio = state.duct_vapour_ratio[node - heap_mesh.cells()];
  const double vapour_pa = weather::vapour_pressure_pa(ratio, coefficients.outside.pressure_pa);
  set_gas(state.temperature_c[node], vapour_pa, coefficients.outside.pressure_pa, node, coefficients);
  coefficients.gas_density_kg_m3[node] = state.duct_density_kg_m3[node - heap_mesh.cells()];
  coefficients.gas_kg[node] = heap_mesh.channel_area_m2[k] * state.layer_height_m[heap_mesh.layer_of(node)] *
                              coefficients.dry_air_density_kg_m3[node];
}

void set_cell_links(const HeapMesh& heap_mesh, Coefficients& coefficients) {
  for (int k = 0; k < heap_mesh.kind_start[2]; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double geometry = coefficients.metric.over_distance_m[k];
    const double air = mean(coefficients.dry_air_density_kg_m3[a], coefficients.dry_air_density_kg_m3[b]);
    coefficients.heat_w_k[k] = geometry * mean(coefficients.conductivity_w_m_k[a], coefficients.conductivity_w_m_k[b]);
    coefficients.oxygen_kg_s[k] = geometry * air * mean(coefficients.oxygen_d_m2_s[a], coefficients.oxygen_d_m2_s[b]);
    coefficients.vapour_kg_s[k] = geometry * air * mean(coefficients.vapour_d_m2_s[a], coefficients.vapour_d_m2_s[b]);
    coefficients.gas_kg_s_pa[k] = geometry * air *
                                  mean(coefficients.permeability_m2[a], coefficients.permeability_m2[b]) /
                                  mean(coefficients.viscosity_pa_s[a], coefficients.viscosity_pa_s[b]);
  }
}

double speed_m_s(const HeapMesh& heap_mesh, const State& state, const Coefficients& coefficients, int link) {
  const int a = heap_mesh.links[link][0];
  return state.duct_flow_kg_s[link - heap_mesh.kind_start[3]] /
         (coefficients.dry_air_density_kg_m3[a] * heap_mesh.link_plan[link]);
}

void set_duct_links(const Heap& heap, const State& state, Coefficients& coefficients) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  for (int k = heap_mesh.kind_start[3]; k < heap_mesh.kind_start[4]; ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double diameter = heap_mesh.channel_diameter_m[(a - heap_mesh.cells()) / heap_mesh.layers];
    const double resistance =
        physics::duct_resistance_pa_s_m2(speed_m_s(heap_mesh, state, coefficients, k), diameter,
                                         coefficients.gas_density_kg_m3[a], coefficients.viscosity_pa_s[a]);
    coefficients.gas_kg_s_pa[k] =
        coefficients.metric.over_distance_m[k] * coefficients.dry_air_density_kg_m3[a] / resistance;
    coefficients.heat_w_k[k] = coefficients.metric.over_distance_m[k] * physics::air_conductivity_w_m_k;
    coefficients.oxygen_kg_s[k] =
        coefficients.metric.over_distance_m[k] * coefficients.dry_air_density_kg_m3[a] * physics::still_oxygen_m2_s;
    coefficients.vapour_kg_s[k] =
        coefficients.metric.over_distance_m[k] * coefficients.dry_air_density_kg_m3[a] * physics::still_vapour_m2_s;
  }
}

void set_rim_links(const Heap& heap, const State& state, Coefficients& coefficients) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  double height = 0.0;
  for (const double h : state.layer_height_m) height += h;
  for (int k = heap_mesh.kind_start[2]; k < heap_mesh.kind_start[3]; ++k) {
    const auto [cell, node] = heap_mesh.links[k];
    const int channel = (node - heap_mesh.cells()) / heap_mesh.layers;
    const double diameter = heap_mesh.channel_diameter_m[channel];
    const int duct_link = heap_mesh.kind_start[3] + channel * (heap_mesh.layers - 1) +
                          std::min(heap_mesh.layer_of(node), heap_mesh.layers - 2);
    const double reynolds = std::abs(speed_m_s(heap_mesh, state, coefficients, duct_link)) * diameter *
                            coefficients.gas_density_kg_m3[node] / coefficients.viscosity_pa_s[node];
    const double nusselt = physics::duct_nusselt(reynolds, diameter, height) * heap.parameters.channel_transfer_factor;
    const double area = coefficients.metric.over_distance_m[k];
    const double air = coefficients.dry_air_density_kg_m3[node];
    const double celsius = state.temperature_c[node];
    coefficients.heat_w_k[k] = area * nusselt * physics::air_conductivity_w_m_k / diameter;
    coefficients.vapour_kg_s[k] = area * nusselt * physics::vapour_diffusivity_m2_s(celsius) / diameter * air;
    coefficients.oxygen_kg_s[k] = area * nusselt * physics::oxygen_diffusivity_m2_s(celsius) / diameter * air;
    coefficients.gas_kg_s_pa[k] = area * air / rim_resistance_pa_s_m;
  }
}

/// What lifts air of a density over a rise in the outside's column.
double drive_pa(const Coefficients& coefficients, double density_kg_m3, double rise_m) {
  return (coefficients.outside_density_kg_m3 - density_kg_m3) * constant::gravity_m_s2 * rise_m;
}

void set_link_drives(const HeapMesh& heap_mesh, int first, Coefficients& coefficients) {
  for (std::size_t k = static_cast<std::size_t>(first); k < heap_mesh.links.size(); ++k) {
    const auto [a, b] = heap_mesh.links[k];
    const double inside = mean(coefficients.gas_density_kg_m3[a], coefficients.gas_density_kg_m3[b]);
    coefficients.gas_drive_pa[k] = drive_pa(coefficients, inside, coefficients.metric.rise_m[k]);
  }
}

void set_face_drives(const HeapMesh& heap_mesh, bool mouths_only, Coefficients& coefficients) {
  for (std::size_t f = 0; f < heap_mesh.faces.size(); ++f) {
    const Face& face = heap_mesh.faces[f];
    if (mouths_only && face.channel < 0) continue;
    coefficients.face[f].gas_drive_pa =
        drive_pa(coefficients, coefficients.gas_density_kg_m3[face.node], coefficients.face[f].rise_m);
  }
}

}  // namespace

double saturated_water_dry(const Heap& heap, const Coefficients& coefficients, int i) noexcept {
  const double solids_m3 =
      (coefficients.dry_kg[i] - heap.ash_kg[i]) / density.organic_kg_m3 + heap.ash_kg[i] / density.mineral_kg_m3;
  return std::max(0.05, (coefficients.volume_m3[i] - solids_m3) * density.water_kg_m3 / coefficients.dry_kg[i]);
}

void set_duct_drives(const HeapMesh& heap_mesh, Coefficients& coefficients) noexcept {
  set_link_drives(heap_mesh, heap_mesh.kind_start[3], coefficients);
  set_face_drives(heap_mesh, true, coefficients);
}

void set_faces(const Heap& heap, const State& state, Coefficients& coefficients);

void set_scene(const Heap& heap, const State& state, const weather::Hour& outside, Coefficients& coefficients) {
  const HeapMesh& heap_mesh = heap.heap_mesh;
  resize(heap_mesh, coefficients);
  coefficients.outside = outside;
  const double vapour_pa = outside.humidity * weather::saturation_pressure_pa(outside.air_c);
  coefficients.outside_vapour_ratio = weather::humidity_ratio(vapour_pa, outside.pressure_pa);
  coefficients.outside_density_kg_m3 = weather::moist_air_density_kg_m3(outside.air_c, vapour_pa, outside.pressure_pa);
  measure_links(heap_mesh, state.layer_height_m, coefficients.metric);
  for (int i = 0; i < heap_mesh.cells(); ++i) set_cell(heap, state, i, coefficients);
  for (int i = heap_mesh.cells(); i < heap_mesh.nodes(); ++i) set_duct_node(heap, state, i, coefficients);
  set_cell_links(heap_mesh, coefficients);
  set_duct_links(heap, state, coefficients);
  set_rim_links(heap, state, coefficients);
  set_faces(heap, state, coefficients);
  set_link_drives(heap_mesh, 0, coefficients);
  set_face_drives(heap_mesh, false, coefficients);
}

}  // namespace stillheap::forecast
