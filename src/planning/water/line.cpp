#include "planning/water/line.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"

namespace stillheap::water {
namespace {

constexpr double laminar_below = 2300.0;
constexpr double turbulent_above = 4000.0;

double colebrook(double reynolds, double relative_roughness) noexcept {
  // Newton on x = 1/sqrt(f): x + 2 log10(e/3.7 + 2.51 x / Re) = 0; from any x > 0 it settles in a few steps.
  double x = 7.0;
  for (int step = 0; step < 30; ++step) {
    const double inside = relative_roughness / 3.7 + 2.51 * x / reynolds;
    const double miss = x + 2.0 * std::log10(inside);
    const double slope = 1.0 + 2.0 / std::log(10.0) * 2.51 / reynolds / inside;
    const double change = miss / slope;
    x -= change;
    if (std::abs(change) < 1e-13 * x) break;
  }
  return 1.0 / (x * x);
}

/// One arm of the line from the inlet: all of an open line, half of a ring.
struct Arm {
  double first_gap_m = 0.0;  ///< from inlet to first hole
  std::size_t holes = 0;
  double last_weight = 1.0;  ///< 0.5 when the far hole of a ring is fed from both sides
  double arms = 1.0;         ///< how many like it leave the inlet
};

Arm arm_of(const Line& line, int holes) {
  if (!line.ring) return {line.spacing_m, static_cast<std::size_t>(holes), 1.0, 1.0};
  const double gap = std::max(0.0, 0.5 * (line.length_m - (holes - 1) * line.spacing_m));
  return {gap, static_cast<std::size_t>((holes + 1) / 2), holes % 2 == 0 ? 1.0 : 0.5, 2.0};
}

struct ArmFlow {
  std::vector<double> pressure_pa;  ///< at each hole from the inlet
  std::vector<double> pipe_m3_s;    ///< in the stretch before each hole
  double inlet_pressure_pa = 0.0;
  double total_m3_s = 0.0;  ///< all arms and the sprays
};

double spray_flow(const Line& line, double inlet_pressure_pa) {
  if (line.sprays == 0) return 0.0;
  return line.sprays * line.spray_flow_m3_s * std::sqrt(inlet_pressure_pa / line.spray_pressure_pa);
}

double hole_flow(const Line& line, double pressure_pa) {
  return orifice_flow_m3_s(line.hole_diameter_m, pressure_pa, line.discharge_coefficient);
}

/// Walks from the far hole, whose pressure is given, up to the inlet.
ArmFlow walk(const Line& line, const Arm& arm, double far_pressure_pa) {
  ArmFlow result;
  result.pressure_pa.assign(arm.holes, 0.0);
  result.pipe_m3_s.assign(arm.holes, 0.0);
  double pressure_pa = far_pressure_pa;
  double flow_m3_s = 0.0;
  for (std::size_t left = arm.holes; left > 0; --left) {
    result.pressure_pa[left - 1] = pressure_pa;
    flow_m3_s += hole_flow(line, pressure_pa) * (left == arm.holes ? arm.last_weight : 1.0);
    result.pipe_m3_s[left - 1] = flow_m3_s;
    const double length_m = left == 1 ? arm.first_gap_m : line.spacing_m;
    pressure_pa += friction_loss_pa(flow_m3_s, line.inside_diameter_m, length_m, line.roughness_m);
  }
  result.inlet_pressure_pa = pressure_pa;
  result.total_m3_s = arm.arms * flow_m3_s + spray_flow(line, pressure_pa);
  return result;
}

/// The far pressure at which the inlet has all the supply can give, in pressure or in flow; both rise with it.
ArmFlow match_supply(const Line& line, const Arm& arm, const Supply& supply) {
  const auto within = [&](const ArmFlow& flow) {
    return flow.inlet_pressure_pa <= supply.pressure_pa &&
           (supply.flow_max_m3_s <= 0.0 || flow.total_m3_s <= supply.flow_max_m3_s);
  };
  double low = 0.0;
  double high = supply.pressure_pa;
  for (int step = 0; step < 80 && high - low > 1e-12 * supply.pressure_pa; ++step) {
    const double middle = 0.5 * (low + high);
    (within(walk(line, arm, middle)) ? low : high) = middle;
  }
  return walk(line, arm, low);
}

void check_positive(const char* key, double value, std::vector<Problem>& problems) {
  if (value > 0.0) return;
  problems.push_back({key, std::to_string(value) + " cannot be", "give a value above 0"});
}

void check(const Line& line, const Supply& supply) {
  std::vector<Problem> problems;
  check_positive("water line, inside diameter", line.inside_diameter_m, problems);
  check_positive("water line, length", line.length_m, problems);
  check_positive("water line, hole diameter", line.hole_diameter_m, problems);
  check_positive("water line, spacing", line.spacing_m, problems);
  check_positive("water line, discharge coefficient", line.discharge_coefficient, problems);
  check_positive("water supply, pressure", supply.pressure_pa, problems);
  if (line.sprays > 0) {
    check_positive("water line, spray flow", line.spray_flow_m3_s, problems);
    check_positive("water line, spray pressure", line.spray_pressure_pa, problems);
  }
  if (line.sprays < 0) problems.push_back({"water line, sprays", "fewer than none", "give 0 or more"});
  if (line.roughness_m < 0.0 || line.roughness_m > 0.05 * line.inside_diameter_m) {
    problems.push_back({"water line, roughness", std::to_string(line.roughness_m) + " m cannot be",
                        "give 0 to 5 % of the inside diameter"});
  }
  if (line.hole_diameter_m >= line.inside_diameter_m) {
    problems.push_back({"water line, hole diameter", "holes are as wide as the line", "give smaller holes"});
  }
  if (problems.empty() && hole_count(line.length_m, line.spacing_m) < 1) {
    problems.push_back({"water line, spacing", "the line is shorter than one spacing", "set holes closer"});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

/// Values of every hole from those of one arm: a ring comes back the way it went.
std::vector<double> all_of(const Arm& arm, const std::vector<double>& one_arm, int holes) {
  std::vector<double> all = one_arm;
  for (std::size_t left = static_cast<std::size_t>(holes) - arm.holes; left > 0; --left)
    all.push_back(one_arm[left - 1]);
  return all;
}

}  // namespace

int hole_count(double length_m, double spacing_m) noexcept {
  return static_cast<int>(std::floor(length_m / spacing_m + 1e-6));
}

double orifice_flow_m3_s(double hole_diameter_m, double pressure_pa, double discharge_coefficient) noexcept {
  const double area_m2 = 0.25 * constant::pi * hole_diameter_m * hole_diameter_m;
  return discharge_coefficient * area_m2 * std::sqrt(2.0 * std::max(pressure_pa, 0.0) / water_density_kg_m3);
}

double darcy_friction_factor(double reynolds, double relative_roughness) noexcept {
  if (reynolds <= 0.0) return 0.0;
  if (reynolds < laminar_below) return 64.0 / reynolds;
  if (reynolds > turbulent_above) return colebrook(reynolds, relative_roughness);
  // No law holds between; a straight line keeps the pressure continuous and rising with flow.
  const double share = (reynolds - laminar_below) / (turbulent_above - laminar_below);
  return (1.0 - share) * 64.0 / laminar_below + share * colebrook(turbulent_above, relative_roughness);
}

double friction_loss_pa(double flow_m3_s, double inside_diameter_m, double length_m, double roughness_m) noexcept {
  const double speed_m_s = flow_m3_s / (0.25 * constant::pi * inside_diameter_m * inside_diameter_m);
  const double reynolds = speed_m_s * inside_diameter_m / water_viscosity_m2_s;
  return darcy_friction_factor(reynolds, roughness_m / inside_diameter_m) * length_m / inside_diameter_m * 0.5 *
         water_density_kg_m3 * speed_m_s * speed_m_s;
}

double hazen_williams_loss_pa(double flow_m3_s, double inside_diameter_m, double length_m, double roughness) noexcept {
  const double head_m = 10.67 * length_m * std::pow(flow_m3_s / roughness, 1.852) / std::pow(inside_diameter_m, 4.8704);
  return head_m * water_density_kg_m3 * constant::gravity_m_s2;
}

double blasius_friction_factor(double reynolds) noexcept { return 0.3164 / std::pow(reynolds, 0.25); }

LineFlow solve_line(const Line& line, const Supply& supply) {
  check(line, supply);
  LineFlow result;
  result.holes = hole_count(line.length_m, line.spacing_m);
  const Arm arm = arm_of(line, result.holes);
  const ArmFlow flow = match_supply(line, arm, supply);
  result.hole_pressure_pa = all_of(arm, flow.pressure_pa, result.holes);
  result.pipe_flow_m3_s = all_of(arm, flow.pipe_m3_s, result.holes);
  for (int i = 0; i < result.holes; ++i) result.hole_distance_m.push_back(arm.first_gap_m + i * line.spacing_m);
  for (const double pressure_pa : result.hole_pressure_pa) {
    result.hole_flow_m3_s.push_back(hole_flow(line, pressure_pa));
  }
  result.total_flow_m3_s = flow.total_m3_s;
  result.inlet_pressure_pa = flow.inlet_pressure_pa;
  result.supply_limits = flow.inlet_pressure_pa < (1.0 - 1e-6) * supply.pressure_pa;
  result.christiansen_uniformity = christiansen_uniformity(result.hole_flow_m3_s);
  result.low_quarter_uniformity = low_quarter_uniformity(result.hole_flow_m3_s);
  return result;
}

Assumptions line_assumptions(const Line& line) {
  Assumptions notes{
      {"water: losses in the line", "wall friction only; fittings, barbs and pressure regained are left out", "chosen"},
      {"water: height of the line", "lies level, holes open to the air", "chosen"},
      {"water: temperature", "20 degC", "chosen"},
      {"water: openings of the filter", "an eighth of the hole", "Agriculture Victoria note AG0136"},
  };
  if (line.sprays > 0) notes.push_back({"water: sprays", "take the pressure at the inlet of the line", "chosen"});
  return notes;
}

}  // namespace stillheap::water
