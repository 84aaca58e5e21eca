#include "domain/vessel/wire_gauge.hpp"

#include <array>
#include <cmath>
#include <cstddef>

namespace stillheap::vessel {
namespace {

constexpr double inch_m = 0.0254;  // exact, international inch 1959
constexpr int first_gauge = -6;    // 7/0

// Inches, 7/0 down to 0, then 1 to 20.
constexpr std::array<double, 27> steel_inches{0.4900, 0.4615, 0.4305, 0.3938, 0.3625, 0.3310, 0.3065, 0.2830, 0.2625,
                                              0.2437, 0.2253, 0.2070, 0.1920, 0.1770, 0.1620, 0.1483, 0.1350, 0.1205,
                                              0.1055, 0.0915, 0.0800, 0.0720, 0.0625, 0.0540, 0.0475, 0.0410, 0.0348};

}  // namespace

std::optional<double> steel_wire_diameter_m(int gauge) noexcept {
  const int row = gauge - first_gauge;
  if (row < 0 || row >= static_cast<int>(steel_inches.size())) return std::nullopt;
  return steel_inches[static_cast<std::size_t>(row)] * inch_m;
}

double american_wire_diameter_m(int gauge) noexcept { return 0.005 * inch_m * std::pow(92.0, (36.0 - gauge) / 39.0); }

}  // namespace stillheap::vessel
