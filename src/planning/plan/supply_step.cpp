#include "planning/plan/supply_step.hpp"

#include <algorithm>

#include "core/base/constants.hpp"
#include "core/base/date.hpp"
#include "domain/rules/harvest.hpp"
#include "domain/rules/worms.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/practice.hpp"

namespace stillheap::plan {
namespace {

constexpr double half = 0.5;  // of a month's amount, in each of its halves

const VesselPlan* vessel_of(const Plan& plan) {
  const auto named = [&](const VesselPlan& one) { return one.design.name == plan.site.supply->vessel; };
  const auto found = std::find_if(plan.vessels.begin(), plan.vessels.end(), named);
  return found == plan.vessels.end() ? nullptr : &*found;
}

std::vector<double> halves(const std::array<double, 12>& months, double share) {
  std::vector<double> parts;
  for (const double month : months) parts.insert(parts.end(), 2, month * share);
  return parts;
}

bool has_forecast(const VesselPlan& vessel) { return vessel.forecast.summary.finished_volume_m3.middle > 0.0; }

/// Volume of finished compost that is mixed into one filling.
double inoculum_m3(const VesselPlan& vessel) {
  const forecast::Summary& summary = vessel.forecast.summary;
  if (vessel.fill.inoculum_kg <= 0.0 || summary.finished_mass_kg.middle <= 0.0) return 0.0;
  return vessel.fill.inoculum_kg * summary.finished_volume_m3.middle / summary.finished_mass_kg.middle;
}

double mean_air_c(const weather::Series& weather, const supply::Year& year, int part) {
  const double begin_day = year.first_day[static_cast<std::size_t>(part)];
  const int hours = static_cast<int>(24.0 * supply::length_days(year, part));
  double sum_c = 0.0;
  for (int hour = 0; hour < hours; ++hour)
    sum_c += weather::at(weather, begin_day * constant::seconds_per_day + hour * constant::seconds_per_hour).air_c;
  return sum_c / hours;
}

supply::Work work_of(const Plan& plan, const VesselPlan& vessel) {
  const VesselHours hours = hours_of(plan.site, vessel);
  const double out_days = plan.site.practice.forms_out_after_s / constant::seconds_per_day;
  const double worms_days = vessel.worms.day.value_or(rules::worms::earliest_day);
  return {{{"soaking and filling", 0.0, hours.soaking + hours.filling},
           {"forms out and covering", out_days, hours.forms_out + hours.covering},
           {"worms", worms_days, hours.worms}},
          hours.harvest,
          hours.daily};
}

std::vector<supply::Season> seasons_of(const Plan& plan, const VesselPlan& vessel) {
  std::vector<supply::Season> seasons;
  for (const material::Part& part : vessel.blend_as_delivered.parts) {
    const auto season = plan.site.seasons.find(part.feedstock.id);
    if (season == plan.site.seasons.end()) continue;
    seasons.push_back({part.feedstock.id, part.feedstock.name, part.mass_wet_kg / part.feedstock.bulk_density_kg_m3,
                       halves(season->second.arises_m3, half), season->second.keeps_s / constant::seconds_per_day});
  }
  return seasons;
}

std::string amount(const Plan& plan, double si, Dimension dimension) {
  return quantity::format(si, dimension, plan.site.units);
}

}  // namespace

std::optional<supply::Wish> supply_wish(const Plan& plan) {
  if (!plan.site.supply) return std::nullopt;
  const site::SupplyGoal& goal = *plan.site.supply;
  const VesselPlan* vessel = vessel_of(plan);
  if (vessel == nullptr) return std::nullopt;
  if (!has_forecast(*vessel) && !(goal.yield_m3 && goal.harvest_after_s)) return std::nullopt;
  supply::Wish wish;
  wish.wanted_m3 = halves(goal.wanted_m3, half);
  wish.yield_m3 = goal.yield_m3.value_or(vessel->forecast.summary.finished_volume_m3.middle - inoculum_m3(*vessel));
  wish.harvest_days =
      goal.harvest_after_s ? *goal.harvest_after_s / constant::seconds_per_day : vessel->harvest.late_day;
  wish.rest_days = goal.rest_s / constant::seconds_per_day;
  wish.store_days = goal.store_s / constant::seconds_per_day;
  if (goal.store_room_m3) wish.store_m3 = *goal.store_room_m3;
  wish.most_places = goal.places.value_or(0);
  if (goal.half_month_s) wish.most_hours = halves(*goal.half_month_s, 1.0 / constant::seconds_per_hour);
  for (int part = 0; part < supply::parts(wish.year); ++part)
    wish.may_fill.push_back(goal.fill_in_cold || mean_air_c(plan.weather, wish.year, part) >= practice::coldest_fill_c);
  wish.seasons = seasons_of(plan, *vessel);
  wish.work = work_of(plan, *vessel);
  return wish;
}

std::optional<supply::Outcome> supply_of(const Plan& plan) {
  const std::optional<supply::Wish> wish = supply_wish(plan);
  const auto start = date::parse_iso(plan.site.start_date);
  if (!wish || !start) return std::nullopt;
  const VesselPlan& vessel = *vessel_of(plan);
  std::optional<supply::YieldBand> band;
  const forecast::Banded& finished = vessel.forecast.summary.finished_volume_m3;
  const double back_m3 = inoculum_m3(vessel);
  if (!plan.site.supply->yield_m3 && finished.low > back_m3 && finished.low < finished.high)
    band = {finished.low - back_m3, finished.high - back_m3};
  supply::Outcome outcome = supply::work_out(*wish, *start, band);
  outcome.site = plan.site.name;
  outcome.vessel = vessel.design.name;
  return outcome;
}

Warnings supply_warnings(const Plan& plan) {
  if (!plan.supply || plan.supply->met) return {};
  std::string what;
  for (const std::string& line : supply::short_lines(*plan.supply, plan.site.units))
    what += (what.empty() ? "" : "; ") + line;
  std::string ways;
  for (const supply::Way& way : plan.supply->ways_out)
    ways += (ways.empty() ? ". It could be with: " : "; or ") + supply::way_text(*plan.supply, way, plan.site.units);
  return {{"yard plan", what + ways, "site file, [supply]"}};
}

Assumptions supply_choices(const Plan& plan) {
  if (!plan.supply || !plan.site.supply) return {};
  const supply::Wish& wish = plan.supply->wish;
  Assumptions choices{
      {"plan: yard plan, a filling",
       amount(plan, wish.yield_m3, Dimension::volume) + " of compost after " +
           std::to_string(static_cast<int>(wish.harvest_days + half)) + " days, every filling alike in all seasons",
       plan.site.supply->yield_m3 ? "site file" : "forecast of the first filling; how seasons differ is not known"},
      {"plan: yard plan, work",
       "building, deliveries, sieving for others and spreading are not in its hours; " + short_jobs_words(), "chosen"},
      {"plan: yard plan, a steady year",
       "every year like the one before; dates to the half-month, counted from the first day of each", "chosen"}};
  if (!plan.site.supply->fill_in_cold) {
    choices.push_back({"plan: yard plan, cold",
                       "no filling in half-months whose mean air is below " +
                           amount(plan, practice::coldest_fill_c, Dimension::temperature),
                       "chosen"});
  }
  std::string free;
  for (const material::Part& part : vessel_of(plan)->blend_as_delivered.parts)
    if (!plan.site.seasons.contains(part.feedstock.id)) free += (free.empty() ? "" : ", ") + part.feedstock.name;
  if (!free.empty())
    choices.push_back({"plan: yard plan, no season given", free + ": there whenever wanted", "chosen"});
  return choices;
}

}  // namespace stillheap::plan
