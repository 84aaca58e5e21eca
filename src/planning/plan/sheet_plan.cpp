#include "planning/plan/sheet_plan.hpp"

#include "planning/plan/blend_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/cutting.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/supply_step.hpp"
#include "planning/plan/vessel_step.hpp"
#include "planning/plan/warnings.hpp"

namespace stillheap::plan {

Plan plan_for_sheets(const site::Site& site) {
  Plan plan;
  plan.site = site;
  const std::vector<int> counts = starting_counts(site);
  const Recipe recipe = choose_recipe(site, counts);
  for (std::size_t i = 0; i < site.vessels.size(); ++i) {
    const vessel::Design& design = site.vessels[i];
    plan.vessels.push_back(
        plan_vessel(site, design, scaled_to(recipe, vessel::material_volume_m3(design)), recipe.moisture_wet));
    plan.vessels.back().design.count = counts[i];
  }
  plan.blend_was_found = recipe.by_programme;
  plan.found = recipe.found;
  plan.cutting = cuts_of(plan);
  if (site.supply && site.supply->harvest_after_s && site.supply->yield_m3) {
    plan.weather = weather_of(site);
    plan.supply = supply_of(plan);
  }
  plan.warnings = recipe.warnings;
  for (const Warnings& more : {findings_without_forecast(plan), supply_warnings(plan)})
    plan.warnings.insert(plan.warnings.end(), more.begin(), more.end());
  return plan;
}

}  // namespace stillheap::plan
