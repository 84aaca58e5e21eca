#include "planning/water/fittings.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::water {
namespace {

struct Sieve {
  int mesh;
  double opening_um;
};

constexpr std::array<Sieve, 18> sieves{{{18, 1000},
                                        {20, 850},
                                        {25, 710},
                                        {30, 600},
                                        {35, 500},
                                        {40, 425},
                                        {45, 355},
                                        {50, 300},
                                        {60, 250},
                                        {70, 212},
                                        {80, 180},
                                        {100, 150},
                                        {120, 125},
                                        {140, 106},
                                        {170, 90},
                                        {200, 75},
                                        {230, 63},
                                        {270, 53}}};

}  // namespace

Screen screen_for(double hole_diameter_m) noexcept {
  const double finest_um = hole_diameter_m * filter_share * 1e6;
  const auto* const found = std::find_if(
      sieves.begin(), sieves.end() - 1, [&](const Sieve& sieve) { return sieve.opening_um <= finest_um * (1 + 1e-9); });
  return {found->mesh, found->opening_um * 1e-6};
}

double held_water_m3(const Line& line) noexcept {
  return 0.25 * constant::pi * line.inside_diameter_m * line.inside_diameter_m * line.length_m;
}

double ruled_loss_pa(const Line& line, const LineFlow& flow, double roughness) noexcept {
  double arm_m3_s = 0.0;
  for (const double hole : flow.hole_flow_m3_s) arm_m3_s += hole;
  const int arms = line.ring ? 2 : 1;
  const int outlets = std::max(1, (flow.holes + arms - 1) / arms);
  return hazen_williams_loss_pa(arm_m3_s / arms, line.inside_diameter_m, outlets * line.spacing_m, roughness) *
         christiansen_f(outlets, 1.852);
}

double flow_variation(const LineFlow& flow) noexcept {
  if (flow.hole_flow_m3_s.empty()) return 0.0;
  const auto [least, most] = std::minmax_element(flow.hole_flow_m3_s.begin(), flow.hole_flow_m3_s.end());
  return *most > 0.0 ? (*most - *least) / *most : 0.0;
}

}  // namespace stillheap::water
