#include "planning/plan/plan.hpp"

#include <algorithm>
#include <numeric>

#include "core/base/error.hpp"
#include "planning/plan/assumption_step.hpp"
#include "planning/plan/blend_step.hpp"
#include "planning/plan/calendar.hpp"
#include "planning/plan/caution_step.hpp"
#include "planning/plan/check_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/progress.hpp"
#include "planning/plan/shopping.hpp"
#include "planning/plan/supply_step.hpp"
#include "planning/plan/vessel_step.hpp"
#include "planning/plan/warnings.hpp"

namespace stillheap::plan {
namespace {

constexpr double same_recipe_share = 0.01;  // chosen: a smaller change is below what a pail can measure

/// Plans and forecasts one vessel of every kind, as far as the user lets it.
void plan_kinds(Plan& plan, const Recipe& recipe, const ForecastFunction& forecast, const Progress& progress) {
  std::vector<VesselPlan>& kinds = plan.vessels;
  kinds.clear();
  const double share = 1.0 / static_cast<double>(plan.site.vessels.size());
  for (const vessel::Design& design : plan.site.vessels) {
    const double done = static_cast<double>(kinds.size()) * share;
    if (!tell(progress, done, "planning " + design.name)) {
      plan.stopped = "stopped by the user before the forecast of " + design.name;
      return;
    }
    VesselPlan kind =
        plan_vessel(plan.site, design, scaled_to(recipe, vessel::material_volume_m3(design)), recipe.moisture_wet);
    add_forecast(kind, plan.site, plan.weather, forecast, part_of(progress, done, done + share));
    kinds.push_back(std::move(kind));
    const forecast::Result& result = kinds.back().forecast;
    if (!result.stopped_by_user) continue;
    plan.stopped = design.name + ": " + result.stopped.value_or("stopped by the user");
    return;
  }
}

std::vector<forecast::Banded> finished_of(const Plan& plan) {
  std::vector<forecast::Banded> finished;
  for (const VesselPlan& kind : plan.vessels) finished.push_back(kind.forecast.summary.finished_volume_m3);
  return finished;
}

/// Sets the number of vessels from the goal and returns it by kind.
std::vector<int> count_vessels(Plan& plan) {
  std::vector<int> counts = starting_counts(plan.site);
  const int in_set = std::accumulate(counts.begin(), counts.end(), 0);
  int sets = 1, sets_low = 1, sets_high = 1;
  const forecast::Banded one_set = finished_volume_m3(finished_of(plan), counts);
  if (plan.site.goal.compost_m3) {
    sets = sets_for(*plan.site.goal.compost_m3, one_set.middle);
    sets_low = sets_for(*plan.site.goal.compost_m3, one_set.high);
    sets_high = sets_for(*plan.site.goal.compost_m3, one_set.low);
  }
  for (int& count : counts) count *= sets;
  plan.vessels_needed = sets * in_set;
  plan.vessels_needed_low = sets_low * in_set;
  plan.vessels_needed_high = sets_high * in_set;
  plan.finished_m3 = finished_volume_m3(finished_of(plan), counts);
  return counts;
}

void set_counts(Plan& plan, const std::vector<int>& counts) {
  for (std::size_t i = 0; i < counts.size(); ++i) plan.vessels[i].design.count = counts[i];
}

/// Whether the count can change the blend: only stock that is shared by all vessels does that.
bool may_need_second_pass(const site::Site& site) {
  const bool stock = std::any_of(site.offers.begin(), site.offers.end(),
                                 [](const material::Offer& offer) { return offer.stock_kg.has_value(); });
  return site.goal.compost_m3 && site.blend.shares_by_mass.empty() && stock;
}

/// Stock may last for a few vessels and not for all: the blend of all is then another, and so is its forecast.
Recipe forecast_and_count(Plan& plan, Recipe recipe, const ForecastFunction& forecast, const Progress& progress) {
  const double first_share = may_need_second_pass(plan.site) ? 0.5 : 1.0;
  plan_kinds(plan, recipe, forecast, part_of(progress, 0.0, first_share));
  if (plan.stopped) return recipe;
  std::vector<int> counts = count_vessels(plan);
  Recipe revised = choose_recipe(plan.site, counts);
  if (share_difference(recipe, revised) > same_recipe_share) {
    plan_kinds(plan, revised, forecast, part_of(progress, first_share, 1.0));
    if (plan.stopped) return revised;
    counts = count_vessels(plan);
  }
  set_counts(plan, counts);
  return revised;
}

void check_goal(const site::Site& site) {
  if (!site.vessels.empty() && site.goal.vessels.has_value() != site.goal.compost_m3.has_value()) return;
  throw InputError(site::where(site, "goal"), "needs one vessel at least, and one of the two goals",
                   "give either a number of vessels or a volume of compost");
}

}  // namespace

bool HygieneOutlook::met_everywhere() const noexcept {
  for (const rules::Verdict& verdict : coldest) {
    if (verdict.met && rules::counts_as_hygiene(verdict.rule_id)) return true;
  }
  return false;
}

Plan make_plan(const site::Site& site, const Progress& progress, const ForecastFunction& forecast) {
  check_goal(site);
  Checked start = check_plan(site);
  Plan plan;
  plan.site = site;
  plan.weather = std::move(start.weather);
  const Recipe recipe = forecast_and_count(plan, std::move(start.recipe), forecast, progress);
  if (plan.stopped) return plan;
  plan.blend_was_found = recipe.by_programme;
  plan.found = recipe.found;
  add_costs(plan);
  plan.calendar = calendar_of(plan);
  plan.supply = supply_of(plan);
  plan.cautions = cautions_of(plan);
  plan.warnings = recipe.warnings;
  Warnings more = warnings_of(plan);
  const Warnings of_supply = supply_warnings(plan);
  more.insert(more.end(), of_supply.begin(), of_supply.end());
  plan.warnings.insert(plan.warnings.end(), more.begin(), more.end());
  plan.assumptions = assumptions_of(plan);
  (void)tell(progress, 1.0, "planned");  // too late to stop: all is done
  return plan;
}

}  // namespace stillheap::plan
