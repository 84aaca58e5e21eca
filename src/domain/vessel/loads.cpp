// Janssen 1895: a layer dz of a bin of area A and perimeter U carries its weight on the layer below and on the
// wall, A ds = rho g A dz - mu K s U dz, hence with D = 4 A / U
//   s(z) = rho g D / (4 mu K) (1 - exp(-4 mu K z / D)),   side pressure K s.
// H. A. Janssen, Versuche ueber Getreidedruck in Silozellen, Z. Ver. dt. Ing. 39 (1895) 1045; English by
// M. Sperl, Granular Matter 8 (2006) 59.
#include "domain/vessel/loads.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/setting_out.hpp"

namespace stillheap::vessel {
namespace {

const char* const round_note =
    "Tension holds for a wall that is round and joined as strong as the mesh. A leaning or bulging cage, wind and "
    "people climbing on it are not covered; local codes and licensed practice decide.";
const char* const straight_note =
    "Straight walls bend between their corners and are not held by hoop tension: posts, rails or ties across must "
    "be designed locally for this side force; local codes and licensed practice decide.";

}  // namespace

Pressure janssen(double bulk_density_kg_m3, double hydraulic_diameter_m, double depth_m,
                 const WallFriction& friction) noexcept {
  const double per_depth = bulk_density_kg_m3 * constant::gravity_m_s2;
  const double decay = 4.0 * friction.friction * friction.pressure_ratio / hydraulic_diameter_m;
  // expm1 keeps shallow depths exact; without friction nothing but the weight counts.
  const double vertical = decay > 0.0 ? -per_depth / decay * std::expm1(-decay * depth_m) : per_depth * depth_m;
  return {vertical, friction.pressure_ratio * vertical};
}

double hoop_tension_n_m(double pressure_pa, double radius_m) noexcept { return pressure_pa * radius_m; }

double wire_force_n(double tension_n_m, double spacing_m) noexcept { return tension_n_m * spacing_m; }

double wire_stress_pa(double force_n, double wire_diameter_m) noexcept {
  return force_n / (constant::pi / 4.0 * wire_diameter_m * wire_diameter_m);
}

double waterlogged_density_kg_m3(double bulk_density_kg_m3, double free_air_space) noexcept {
  constexpr double water_kg_m3 = 1000.0;
  return bulk_density_kg_m3 + std::max(free_air_space, 0.0) * water_kg_m3;
}

Loads loads_of(const Design& design, double bulk_density_kg_m3, const LoadChoices& choices) {
  Loads loads;
  const WallFriction& friction = choices.friction;
  const double depth = design.fill_height_m;
  loads.mass_wet_kg = bulk_density_kg_m3 * material_volume_m3(design);
  loads.weight_n = loads.mass_wet_kg * constant::gravity_m_s2;
  loads.base_pressure_pa = bulk_density_kg_m3 * constant::gravity_m_s2 * depth;
  loads.ground_pressure_pa = loads.weight_n / footprint_area_m2(design);
  const double hydraulic_diameter = 4.0 * footprint_area_m2(design) / perimeter_m(design);
  loads.side_pressure_pa = janssen(bulk_density_kg_m3, hydraulic_diameter, depth, friction).horizontal_pa;
  loads.side_pressure_no_friction_pa = friction.pressure_ratio * loads.base_pressure_pa;
  loads.ground = ground_of(design, loads.weight_n, {choices.tilt_allowed, choices.ground_stiffness_pa});
  const double larger = std::max(loads.side_pressure_pa, loads.side_pressure_no_friction_pa);
  if (design.footprint == Footprint::rectangular) {
    loads.side_force_n_m = larger * depth / 2.0;  // triangular over the height
    loads.note = straight_note;
    return loads;
  }
  loads.note = round_note;
  loads.hoop_tension_n_m = hoop_tension_n_m(larger, design.diameter_m / 2.0);
  loads.tie_force_n = loads.hoop_tension_n_m * tie_pitch_m(design);
  if (design.mesh && design.mesh->wire_diameter_m > 0.0) {
    loads.wire_force_n = wire_force_n(loads.hoop_tension_n_m, design.mesh->spacing_m);
    loads.wire_stress_pa = wire_stress_pa(loads.wire_force_n, design.mesh->wire_diameter_m);
    if (loads.wire_stress_pa > 0.0) loads.wire_safety = design.mesh->allowed_stress_pa / loads.wire_stress_pa;
  }
  return loads;
}

}  // namespace stillheap::vessel
