#include "planning/plan/caution_step.hpp"

#include <algorithm>
#include <limits>

#include "core/base/ascii_low.hpp"
#include "core/quantity/retold.hpp"
#include "domain/rules/cautions.hpp"

namespace stillheap::plan {
namespace {

bool named_like(const material::Feedstock& feedstock, std::initializer_list<std::string_view> words) {
  const std::string text = ascii_low(feedstock.id + " " + feedstock.name);
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

double least_width_m(const vessel::Design& design) {
  return design.footprint == vessel::Footprint::round ? design.diameter_m : std::min(design.length_m, design.width_m);
}

template <typename Value>
void keep_highest(std::optional<Value>& kept, Value value) {
  kept = kept ? std::max(*kept, value) : value;
}

void take_vessel(rules::Conditions& conditions, const VesselPlan& vessel) {
  for (const material::Part& part : vessel.blend_as_delivered.parts) {
    conditions.has_manure |= named_like(part.feedstock, {"manure", "litter", "slurry", "dung"});
    conditions.may_carry_weedkiller |=
        named_like(part.feedstock, {"manure", "litter", "dung", "hay", "straw", "grass", "silage", "bedding"});
  }
  const double height_m = vessel.design.height_m;
  conditions.brim_height_m = std::max(conditions.brim_height_m, height_m);
  if (is_slender(vessel.design)) conditions.slender.push_back(vessel.design.name);
  conditions.pail_mass_kg = std::max(conditions.pail_mass_kg, vessel.fill.pail_mass_kg);
  conditions.pail_limit_kg = std::min(conditions.pail_limit_kg, vessel.fill.pail_limit_kg);
  keep_highest(conditions.ground_pressure_pa, vessel.loads.ground_pressure_pa);
  keep_highest(conditions.peak_c, vessel.forecast.summary.peak_temperature_c.high);
  keep_highest(conditions.drain_conductivity_s_m, vessel.drain_conductivity_s_m);
  const double driest = vessel.forecast.summary.driest_moisture_wet.low;
  conditions.driest_moisture_wet = std::min(conditions.driest_moisture_wet.value_or(1.0), driest);
  conditions.hygiene_met_everywhere &= vessel.hygiene.met_everywhere();
}

}  // namespace

bool is_slender(const vessel::Design& design) noexcept {
  return design.height_m > rules::caution_limit::slenderness * least_width_m(design);
}

std::vector<Caution> cautions_of(const Plan& plan) {
  rules::Conditions conditions;
  conditions.drinking_water_supply = plan.site.water.drinking_water && !plan.site.water.by_hand;
  conditions.pail_limit_kg = std::numeric_limits<double>::infinity();
  conditions.hygiene_met_everywhere = !plan.vessels.empty();
  if (plan.site.soil_bearing_pa > 0.0) conditions.soil_bearing_pa = plan.site.soil_bearing_pa;
  conditions.vessels = static_cast<int>(plan.vessels.size());
  for (const VesselPlan& vessel : plan.vessels) take_vessel(conditions, vessel);
  for (const weather::Hour& hour : plan.weather.hours) {
    conditions.coldest_outside_c = std::min(conditions.coldest_outside_c.value_or(hour.air_c), hour.air_c);
  }
  std::vector<Caution> cautions;
  for (const rules::Warned& warned : rules::select_cautions(conditions)) {
    cautions.push_back({std::string(rules::name_of(warned.place)), quantity::retold(warned.text, plan.site.units),
                        quantity::retold(warned.source, plan.site.units)});
  }
  return cautions;
}

}  // namespace stillheap::plan
