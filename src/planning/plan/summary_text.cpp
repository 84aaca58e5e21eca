#include "planning/plan/summary_text.hpp"

#include <algorithm>
#include <cstdio>

#include "planning/plan/measure_text.hpp"
#include "planning/plan/odds_text.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/shopping.hpp"
#include "planning/plan/warnings.hpp"

namespace stillheap::plan {
namespace {

std::string fixed(double value, int decimals) {
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string band(const forecast::Banded& value, Dimension dimension, UnitSystem units) {
  const auto write = [&](double si) { return quantity::format_beside(si, value.middle, dimension, units); };
  return write(value.middle) + " (" + write(value.low) + " to " + write(value.high) + ")";
}

std::string vessels_line(const Plan& plan) {
  std::string line =
      plan.site.name + ": " + std::to_string(plan.vessels_needed) + (plan.vessels_needed == 1 ? " vessel" : " vessels");
  if (plan.vessels_needed_low != plan.vessels_needed_high) {
    line += " (" + std::to_string(plan.vessels_needed_low) + " to " + std::to_string(plan.vessels_needed_high) + ")";
  }
  return line + ", " + band(plan.finished_m3, Dimension::volume, plan.site.units) +
         " of finished compost from one fill of all.\n";
}

std::string cooling_words(const forecast::Summary& summary, const site::Site& site) {
  if (!summary.heated) return "never heats";
  if (!summary.cool_day) return "heats on past the " + std::to_string(site.forecast_days) + " days forecast";
  const double low = summary.cool_day_low.value_or(*summary.cool_day);
  const double high = summary.cool_day_high.value_or(*summary.cool_day);
  return "self-heating ends on day " + fixed(*summary.cool_day, 0) + " (" + fixed(low, 0) + " to " + fixed(high, 0) +
         ")";
}

std::string odds_lines(const VesselPlan& vessel, const site::Site& site) {
  std::string text;
  for (const forecast::Odds& one : vessel.forecast.summary.odds) text += "    " + odds_text(one, site.units) + "\n";
  return text;
}

std::string vessel_line(const VesselPlan& vessel, const site::Site& site) {
  const forecast::Summary& summary = vessel.forecast.summary;
  return "  " + vessel.design.name + ", " + std::to_string(vessel.design.count) + " of it: hottest " +
         band(summary.peak_temperature_c, Dimension::temperature, site.units) + " on day " +
         fixed(summary.peak_day.middle, 0) + "; " + cooling_words(summary, site) + "; lowest oxygen " +
         band(summary.lowest_oxygen, Dimension::fraction, site.units) + "; solids lost " +
         band(summary.solids_lost, Dimension::fraction, site.units) + "; takes " + std::to_string(vessel.fill.pails) +
         " pails and " + fixed(vessel.fill.clock_s / 3600.0, 1) + " h to soak and fill.\n" + odds_lines(vessel, site);
}

std::string costs_line(const Plan& plan) {
  return "Materials " + fixed(plan.material_cost, 2) + " " + plan.site.currency + ", " + material_sum(plan).words() +
         "; work of the first year " + fixed(plan.labour_hours, 0) + " h.\n";
}

}  // namespace

std::string summary_text(const Plan& plan) {
  std::string text = vessels_line(plan);
  for (const VesselPlan& vessel : plan.vessels)
    text += vessel_line(vessel, plan.site) + measure_text(vessel, plan.site.units);
  return text + costs_line(plan) + warning_lines(plan.warnings);
}

}  // namespace stillheap::plan
