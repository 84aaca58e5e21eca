#pragma once
#include <string>

#include "domain/vessel/design.hpp"
#include "domain/vessel/ground.hpp"

namespace stillheap::vessel {

/// Source of both: chosen. EN 1991-4 takes K = 1.1 (1 - sin phi) for stored solids, which is 0.5 at an inner
/// friction angle of 33 degrees.
struct WallFriction {
  double friction = 0.4;        ///< wall friction coefficient
  double pressure_ratio = 0.5;  ///< horizontal over vertical pressure
};

/// What the loads are judged by. All chosen; the site file's section "loads" sets them.
struct LoadChoices {
  WallFriction friction;
  double wanted_safety = 1.5;        ///< allowed stress over stress in a wire, for ties and welds weaker than it
  double tilt_allowed = 0.02;        ///< out of plumb, sideways over up
  double bearer_width_m = 0.045;     ///< on the ground
  double ground_stiffness_pa = 0.0;  ///< Young's modulus of the ground; 0: not known, settling not worked out
};

/// Vertical and horizontal pressure at a depth below the filling's top.
/// Source: Janssen 1895; see loads.cpp. `hydraulic_diameter_m` is 4 area / perimeter.
struct Pressure {
  double vertical_pa = 0.0;
  double horizontal_pa = 0.0;
};
[[nodiscard]] Pressure janssen(double bulk_density_kg_m3, double hydraulic_diameter_m, double depth_m,
                               const WallFriction& friction = {}) noexcept;

/// Tension in a round shell under inside pressure, per height of shell: T = p r.
[[nodiscard]] double hoop_tension_n_m(double pressure_pa, double radius_m) noexcept;

/// Pull in one wire that carries a strip of `spacing_m` of that tension, and the stress in it.
[[nodiscard]] double wire_force_n(double tension_n_m, double spacing_m) noexcept;
[[nodiscard]] double wire_stress_pa(double force_n, double wire_diameter_m) noexcept;

struct Loads {
  double mass_wet_kg = 0.0;  ///< full vessel, just filled and soaked
  double weight_n = 0.0;
  double base_pressure_pa = 0.0;    ///< on the base, no help from wall friction
  double ground_pressure_pa = 0.0;  ///< the weight spread over the whole footprint; under single bearers more
  double side_pressure_pa = 0.0;    ///< at the bottom, Janssen
  double side_pressure_no_friction_pa = 0.0;
  double hoop_tension_n_m = 0.0;  ///< per height of wall, at the bottom, from the larger pressure; round only
  double side_force_n_m = 0.0;    ///< on a straight side, whole height of fill, per length of wall;
                                  ///< from the larger pressure; rectangular only
  double wire_force_n = 0.0;
  double wire_stress_pa = 0.0;
  double wire_safety = 0.0;  ///< allowed over actual; 0 when no mesh is given or the wall is straight
  double tie_force_n = 0.0;  ///< pull on one tie of the joint at the bottom; round only
  Ground ground;
  std::string note;  ///< what these numbers do not settle, for the sheet
};

/// Loads of one vessel filled with material of this wet bulk density. "The larger pressure" is the one without
/// wall friction: wet cloth on wire cannot be counted on to carry. No help from a lid, no wind, no people.
[[nodiscard]] Loads loads_of(const Design& design, double bulk_density_kg_m3, const LoadChoices& choices = {});

/// Density were every pore full of water, the heaviest the filling can get without being packed.
[[nodiscard]] double waterlogged_density_kg_m3(double bulk_density_kg_m3, double free_air_space) noexcept;

}  // namespace stillheap::vessel
