#pragma once
#include <array>
#include <string>
#include <vector>

#include "base/note.hpp"

namespace stillheap::water {

/// A line with equal holes at equal spacing, fed at one end or closed into a ring fed at one point.
struct Line {
  double inside_diameter_m = 0.0;
  double length_m = 0.0;             ///< around the cage once
  double hole_diameter_m = 0.0;
  double spacing_m = 0.0;
  double discharge_coefficient = 0.62;
  double roughness_m = 1.5e-6;
  int sprays = 0;                    ///< small sprays over the top
  double spray_flow_m3_s = 0.0;      ///< each, at spray_pressure_pa; flow goes with the root of pressure
  double spray_pressure_pa = 1e5;
  bool ring = false;                 ///< closed ring: water comes from both sides to the far point
};

struct Supply {
  double pressure_pa = 0.0;          ///< standing pressure at the inlet, after the regulator
  double flow_max_m3_s = 0.0;        ///< what the source gives
  double conductivity_s_m = 0.0;     ///< salts of the water
};

struct LineFlow {
  int holes = 0;
  std::vector<double> hole_flow_m3_s;    ///< from inlet to far end
  std::vector<double> hole_pressure_pa;
  double total_flow_m3_s = 0.0;          ///< sprays included
  double inlet_pressure_pa = 0.0;        ///< less than standing pressure when the supply limits
  double christiansen_uniformity = 0.0;  ///< 0..1
  double low_quarter_uniformity = 0.0;   ///< 0..1
  bool supply_limits = false;
};

/// Orifice discharge, Cd A sqrt(2 dp / rho).
[[nodiscard]] double orifice_flow_m3_s(double hole_diameter_m, double pressure_pa, double discharge_coefficient) noexcept;

/// Darcy friction factor: 64/Re below 2300, Colebrook-White above 4000, linear between.
[[nodiscard]] double darcy_friction_factor(double reynolds, double relative_roughness) noexcept;

/// Solves the line outlet by outlet from the far end, matching the inlet pressure.
[[nodiscard]] LineFlow solve_line(const Line& line, const Supply& supply);

/// Christiansen's reduction factor for N equal outlets, full spacing to the first.
[[nodiscard]] double christiansen_f(int outlets, double flow_exponent) noexcept;

[[nodiscard]] double christiansen_uniformity(const std::vector<double>& catches);
[[nodiscard]] double low_quarter_uniformity(std::vector<double> catches);
[[nodiscard]] double low_half_uniformity(std::vector<double> catches);

}  // namespace stillheap::water
