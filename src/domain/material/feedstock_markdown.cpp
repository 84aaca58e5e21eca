#include <cstdio>

#include "domain/material/feedstock.hpp"

namespace stillheap::material {
namespace {

constexpr double seconds_per_day = 86400.0;

std::string number(const char* format, double value) {
  char text[48];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

std::string percent(double share) { return number("%.4g", 100.0 * share); }

std::string three(const std::array<double, pool_count>& values, double factor) {
  return number("%.3g", factor * values[fast]) + " / " + number("%.3g", factor * values[medium]) + " / " +
         number("%.3g", factor * values[slow]);
}

std::string row(const Feedstock& f, const char* label, const std::string& value, const char* field) {
  return std::string("| ") + label + " | " + value + " | " + f.source.find(field)->second + " |\n";
}

std::string section(const Feedstock& f) {
  const double carbon_to_nitrogen = f.carbon_dry / f.nitrogen_dry;
  return "\n## " + f.name + " (`" + f.id + "`)\n\n| value | | source |\n|---|---|---|\n" +
         row(f, "moisture, % of wet mass", percent(f.moisture_wet), "moisture_wet") +
         row(f, "carbon, % of dry matter", percent(f.carbon_dry), "carbon_dry") +
         row(f, "nitrogen, % of dry matter", percent(f.nitrogen_dry), "nitrogen_dry") +
         row(f, "ash, % of dry matter", percent(f.ash_dry), "ash_dry") +
         row(f, "bulk density, kg/m3", number("%.0f", f.bulk_density_kg_m3), "bulk_density_kg_m3") +
         row(f, "conductivity of the 1:5 extract, dS/m", number("%.3g", 10.0 * f.conductivity_s_m),
             "conductivity_s_m") +
         row(f, "fast / medium / slow pools, % of dry matter", three(f.pool_dry, 100.0), "pool_dry") +
         row(f, "their rates at 20 degC, per day", three(f.pool_rate_20c_per_s, seconds_per_day),
             "pool_rate_20c_per_s") +
         row(f, "particle size that resists air, mm, and dry matter in a piece's envelope, kg/m3",
             number("%.3g", 1e3 * f.habit.particle_size_m) + " and " + number("%.0f", f.habit.envelope_kg_m3),
             "particle_size_m") +
         row(f, "water held against gravity, kg/kg dry", number("%.2g", f.habit.holding_dry), "holding_dry") +
         row(f, "best and most temperature of decay, degC",
             number("%.3g", f.habit.best_c) + " and " + number("%.3g", f.habit.most_c), "best_c") +
         "\nC:N " + number("%.0f", carbon_to_nitrogen) + " from total carbon.\n";
}

}  // namespace

std::string feedstock_markdown() {
  std::string page =
      "# Typical feedstocks\n\n"
      "Generated from the table in `src/domain/material/`; do not edit by hand. Real materials vary by half and more "
      "from "
      "these "
      "values: have your own tested where it matters, above all manures.\n\n"
      "\"read\" means the number was read in a copy of the source, or in the opening or abstract of it that is named; "
      "\"from memory\" that it was not, and waits for someone with the book; \"chosen\" that no source was found; "
      "\"derived\" that it follows from other values.\n";
  for (const Feedstock& f : typical_feedstocks()) page += section(f);
  return page;
}

}  // namespace stillheap::material
