#include "domain/material/salts.hpp"

#include <algorithm>

namespace stillheap::material {
namespace {

constexpr double salt_kg_m3_per_s_m = 6.4;         // 640 mg/l per dS/m
constexpr double extract_water_m3_per_kg = 0.005;  // 1:5 by mass

}  // namespace

const std::array<ExtractLine, 4>& extract_lines() {
  static constexpr std::array<ExtractLine, 4> lines{{{"Talsma 1968", 6.4, 0.0},
                                                     {"Loveday 1972", 6.5, 0.0},
                                                     {"Shaw 1981", 6.08, -0.0937},
                                                     {"Lyons 2003", 6.29, -0.027}}};
  return lines;
}

Spread saturated_conductivity_s_m(double conductivity_1_5_s_m) {
  Spread spread;
  bool first = true;
  for (const ExtractLine& line : extract_lines()) {
    const double value = std::max(0.0, line.slope * conductivity_1_5_s_m + line.offset_s_m);
    spread.low = first ? value : std::min(spread.low, value);
    spread.high = first ? value : std::max(spread.high, value);
    spread.middle += value / static_cast<double>(extract_lines().size());
    first = false;
  }
  return spread;
}

double salt_in_water_kg_m3(double conductivity_s_m) { return salt_kg_m3_per_s_m * conductivity_s_m; }

double soluble_salt_dry(double conductivity_1_5_s_m) {
  return salt_in_water_kg_m3(conductivity_1_5_s_m) * extract_water_m3_per_kg;
}

}  // namespace stillheap::material
