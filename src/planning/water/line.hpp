#pragma once
#include <string>
#include <vector>

#include "core/base/note.hpp"

namespace stillheap::water {

/// Water of 20 degC. Source: IAPWS values as tabulated in handbooks (998.2 kg/m3, 1.004e-6 m2/s).
inline constexpr double water_density_kg_m3 = 998.2;
inline constexpr double water_viscosity_m2_s = 1.004e-6;

/// A line with equal holes at equal spacing, fed at one end or closed into a ring fed at one point.
/// Open line: the first hole is one spacing from the inlet. Ring: the holes lie evenly to both sides of the inlet.
struct Line {
  double inside_diameter_m = 0.0;
  double length_m = 0.0;  ///< around the cage once
  double hole_diameter_m = 0.0;
  double spacing_m = 0.0;
  double discharge_coefficient = 0.62;
  double roughness_m = 1.5e-6;
  int sprays = 0;                ///< small sprays over the top
  double spray_flow_m3_s = 0.0;  ///< each, at spray_pressure_pa; flow goes with the root of pressure
  double spray_pressure_pa = 1e5;
  bool ring = false;  ///< closed ring: water comes from both sides to the far point
};

struct Supply {
  double pressure_pa = 0.0;       ///< standing pressure at the inlet, after the regulator
  double flow_max_m3_s = 0.0;     ///< what the source gives; 0: as much as the line takes
  double conductivity_s_m = 0.0;  ///< salts of the water
};

struct LineFlow {
  int holes = 0;
  std::vector<double> hole_flow_m3_s;  ///< from inlet to far end; of a ring once round
  std::vector<double> hole_pressure_pa;
  std::vector<double> hole_distance_m;   ///< from the inlet along the line; of a ring once round
  std::vector<double> pipe_flow_m3_s;    ///< in the stretch that feeds the hole, of a ring from the nearer side
  double total_flow_m3_s = 0.0;          ///< sprays included
  double inlet_pressure_pa = 0.0;        ///< less than standing pressure when the supply limits
  double christiansen_uniformity = 0.0;  ///< 0..1
  double low_quarter_uniformity = 0.0;   ///< 0..1
  bool supply_limits = false;
};

/// How many holes a line has: one each full spacing of its length (a hair short counts as full).
[[nodiscard]] int hole_count(double length_m, double spacing_m) noexcept;

/// Orifice discharge, Cd A sqrt(2 dp / rho).
[[nodiscard]] double orifice_flow_m3_s(double hole_diameter_m, double pressure_pa,
                                       double discharge_coefficient) noexcept;

/// Darcy friction factor: 64/Re below 2300, Colebrook-White above 4000, linear between; 0 at rest.
[[nodiscard]] double darcy_friction_factor(double reynolds, double relative_roughness) noexcept;

/// Pressure lost to wall friction in a length of pipe (Darcy-Weisbach), Pa.
[[nodiscard]] double friction_loss_pa(double flow_m3_s, double inside_diameter_m, double length_m,
                                      double roughness_m) noexcept;

/// Solves the line outlet by outlet from the far end, matching the inlet pressure.
///
/// Holes are orifices open to the air; friction acts along each stretch with the flow still in it; sprays take inlet
/// pressure. Left out: losses at fittings, pressure regained as the flow slows, height along the line (it lies level).
/// If the supply cannot give the flow, the inlet pressure falls until it can.
/// Throws InputError naming every value that cannot be.
[[nodiscard]] LineFlow solve_line(const Line& line, const Supply& supply);

/// Pressure lost by Hazen and Williams, h = 10.67 L Q^1.852 / (C^1.852 D^4.8704), in water of 20 degC. Roughness
/// 150 for smooth plastic as irrigation handbooks give it, 140 for small bores (from memory).
[[nodiscard]] double hazen_williams_loss_pa(double flow_m3_s, double inside_diameter_m, double length_m,
                                            double roughness) noexcept;

/// Blasius's friction factor of smooth pipe, 0.3164 / Re^0.25, good from 4,000 to 100,000.
[[nodiscard]] double blasius_friction_factor(double reynolds) noexcept;

/// What solve_line leaves out, for the reports.
[[nodiscard]] Assumptions line_assumptions(const Line& line);

/// Christiansen's reduction factor for N equal outlets, full spacing to the first.
[[nodiscard]] double christiansen_f(int outlets, double flow_exponent) noexcept;

/// 1 - mean deviation / mean (Christiansen 1942), 0..1; 0 for no catches or all dry.
[[nodiscard]] double christiansen_uniformity(const std::vector<double>& catches);
/// Mean of the lowest quarter (half) of the catches over the mean of all; the count is rounded up.
[[nodiscard]] double low_quarter_uniformity(std::vector<double> catches);
[[nodiscard]] double low_half_uniformity(std::vector<double> catches);

}  // namespace stillheap::water
