#pragma once
#include "domain/vessel/design.hpp"

/// What a full vessel does to the ground, and how far it may lean.
namespace stillheap::vessel {

/// What a building code presumes the ground under a building bears, for comparison only.
/// Source: International Building Code 2012, table 1806.2 (1,500 and 3,000 psf).
inline constexpr double presumed_bearing_clay_pa = 1500.0 * 47.88026;    ///< clay, sandy or silty clay, silt
inline constexpr double presumed_bearing_gravel_pa = 3000.0 * 47.88026;  ///< sandy gravel and gravel

struct GroundChoices {
  double tilt_allowed = 0.0;  ///< sideways over up
  double stiffness_pa = 0.0;  ///< Young's modulus of the ground; 0: not known
};

struct Ground {
  int bearers = 0;                ///< 0: no open base with a gap, so none
  double bearer_spacing_m = 0.0;  ///< middle to middle, the widest
  double bearer_width_m = 0.0;
  double bearer_pressure_pa = 0.0;  ///< under the hardest pressed bearer
  double middle_height_m = 0.0;     ///< of the filling's mass above the ground
  double tilt_edge = 0.0;           ///< lean at which the upper edge of the base carries nothing any more
  double tilt_over = 0.0;           ///< lean at which it goes over
  double edge_pressure_pa = 0.0;    ///< under the lower edge at the allowed lean, base stiff
  double settling_m = 0.0;          ///< of the ground under the middle; 0: stiffness not known
};

/// Ground pressure under the bearers that the design has (base.hpp lays them), leaning and settling of a vessel of this
/// weight. Without bearers the footprint carries all. Nothing for wind, people, frost or soft spots.
[[nodiscard]] Ground ground_of(const Design& design, double weight_n, const GroundChoices& choices);

/// Bearers across a length: one more than there are spaces of at most `spacing_m`.
[[nodiscard]] int bearer_count(double length_m, double spacing_m) noexcept;

/// How far the resultant may stray from the middle before a stiff base lifts on one side: the kern, R/4 of a disc,
/// b/6 of a rectangle across its narrow side. Source: any handbook of strength of materials (Navier's law).
[[nodiscard]] double kern_m(const Design& design) noexcept;

/// Greatest over mean pressure under a stiff base whose resultant strays so far: 1 + e / kern, as far as the kern.
[[nodiscard]] double edge_over_mean(const Design& design, double stray_m) noexcept;

/// Settling of the middle of an evenly loaded disc on elastic ground, 2 p a (1 - nu2) / E.
/// Source: Boussinesq's point load summed over the disc; Timoshenko and Goodier, Theory of Elasticity.
[[nodiscard]] double disc_settling_m(double pressure_pa, double radius_m, double stiffness_pa,
                                     double poisson_ratio) noexcept;

}  // namespace stillheap::vessel
