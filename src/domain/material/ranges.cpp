#include "domain/material/ranges.hpp"

#include <cstdio>
#include <limits>

#include "domain/material/blend.hpp"

namespace stillheap::material {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

/// Below this decay all but stops (Richard & Trautmann, Cornell, moisture page: read).
constexpr double moisture_of_standstill = 0.30;

/// Upper end of what makers of static vessels with air channels soak to (common practice, no source).
constexpr double trade_moisture_high = 0.70;

/// A blend found on the edge of a limit must not fall off it by the solver's rounding.
constexpr double hair = 1e-6;

bool below(double value, double limit) { return value < limit - hair * limit; }
bool above(double value, double limit) { return value > limit + hair * limit; }

std::string number(const char* format, double value) {
  char text[64];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

std::string percent(double share) { return number("%.0f %%", 100.0 * share); }

std::string moisture_words(double moisture) {
  if (moisture < moisture_of_standstill) {
    return "too dry: " + percent(moisture) + " moisture; below 30 % decay all but stops";
  }
  if (judge(moisture, moisture_range()) == Standing::too_low) {
    return "too dry: " + percent(moisture) + " moisture; below 35 to 40 % decay slows greatly";
  }
  if (judge(moisture, moisture_range()) == Standing::low) {
    return "rather dry: " + percent(moisture) + " moisture; 50 to 60 % is preferred";
  }
  const std::string handbooks = percent(moisture) + " moisture; handbooks prefer 50 to 60 % and accept up to 65 %, ";
  if (!above(moisture, trade_moisture_high)) {
    return "wetter than handbooks: " + handbooks +
           "while makers of static vessels with air channels soak to 60 to 70 % (common practice, no source): "
           "it then hangs on free air space and on the channels, so read both and the lowest oxygen of the forecast";
  }
  return "too wet: " + handbooks + "and even the soaked blends of static vessels keep to 70 % (common practice)";
}

void check_moisture(const Blend& blend, Warnings& warnings) {
  const StartingRange range = moisture_range();
  if (judge(blend.moisture_wet, range) == Standing::preferred) return;
  warnings.push_back({"moisture", moisture_words(blend.moisture_wet), std::string(range.source)});
}

void check_carbon_to_nitrogen(const Blend& blend, Warnings& warnings) {
  const StartingRange range = carbon_to_nitrogen_range();
  const Standing standing = judge(blend.carbon_to_nitrogen, range);
  const std::string value = number("%.0f", blend.carbon_to_nitrogen) +
                            number(" (%.0f from degradable carbon alone)", blend.degradable_carbon_to_nitrogen);
  if (standing == Standing::too_low) {
    warnings.push_back({"C:N",
                        "low: C:N " + value + ", below 20: nitrogen will leave as ammonia; 25 to 30 is preferred",
                        std::string(range.source)});
  }
  if (standing == Standing::too_high) {
    warnings.push_back({"C:N", "high: C:N " + value + ", above 40: decay will be slow; 25 to 30 is preferred",
                        std::string(range.source)});
  }
}

void check_air(const Blend& blend, Warnings& warnings) {
  const StartingRange density = bulk_density_range();
  if (judge(blend.bulk_density_kg_m3, density) == Standing::too_high) {
    warnings.push_back({"bulk density",
                        "dense: " + number("%.0f kg/m3, above 640 kg/m3", blend.bulk_density_kg_m3) +
                            ": air moves badly; add coarse dry material",
                        std::string(density.source)});
  }
  const StartingRange air = free_air_space_range();
  const Standing standing = judge(blend.free_air_space, air);
  const std::string value = percent(blend.free_air_space) + " free air space, ";
  if (standing == Standing::too_low) {
    warnings.push_back(
        {"air space", "little air: " + value + "below 30 %; 35 to 60 % is preferred", std::string(air.source)});
  }
  if (standing == Standing::too_high) {
    warnings.push_back({"air space", "very open: " + value + "above 60 %: it may lose heat as fast as it makes it",
                        std::string(air.source)});
  }
}

void check_salts(const Blend& blend, Warnings& warnings) {
  const StartingRange range = conductivity_range();
  if (judge(blend.conductivity_s_m, range) != Standing::too_high) return;
  warnings.push_back({"salts",
                      "salty: " + number("%.1f dS/m in the 1:5 extract, above 5 dS/m", 10.0 * blend.conductivity_s_m) +
                          "; as solids vanish the rest grows saltier unless draining water carries salt away",
                      std::string(range.source)});
}

}  // namespace

Standing judge(double value, const StartingRange& range) {
  if (below(value, range.low)) return Standing::too_low;
  if (above(value, range.high)) return Standing::too_high;
  if (below(value, range.preferred_low)) return Standing::low;
  return above(value, range.preferred_high) ? Standing::high : Standing::preferred;
}

StartingRange moisture_range() {
  return {0.40, 0.50, 0.60, 0.65,
          "Rynk et al. 1992, NRAES-54, table 2.1 as reproduced by Cooperband 2002 and two agency sheets (read); "
          "Richard & Trautmann, Cornell, moisture page (read)"};
}

StartingRange carbon_to_nitrogen_range() {
  return {20.0, 25.0, 30.0, 40.0, "Rynk et al. 1992, NRAES-54, table 2.1 as reproduced by two agency sheets (read)"};
}

StartingRange bulk_density_range() {
  return {0.0, 0.0, 640.0, 640.0, "from memory: Rynk et al. 1992, NRAES-54 (less than 40 lb/ft3)"};
}

StartingRange free_air_space_range() {
  return {0.30, 0.35, 0.60, 0.60,
          "35 to 60 % best: composting technical note 24 (read); 30 % least: from memory, Haug 1993; straw mixes of 75 "
          "to 93 % that stayed below 55 degC: Michel et al. 2004, ASAE 044030 (abstract read)"};
}

StartingRange conductivity_range() {
  return {0.0, 0.0, 0.4, 0.5, "Gondek et al., salinity of composts: a 1:5 extract above 5 dS/m is the concern (read)"};
}

Warnings check_ranges(const Blend& soaked) {
  Warnings warnings;
  check_moisture(soaked, warnings);
  check_carbon_to_nitrogen(soaked, warnings);
  check_air(soaked, warnings);
  check_salts(soaked, warnings);
  return warnings;
}

}  // namespace stillheap::material
