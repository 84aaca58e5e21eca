#include "planning/plan/assumption_step.hpp"

#include <set>
#include <utility>

#include "core/base/plain_number.hpp"
#include "core/quantity/retold.hpp"
#include "domain/vessel/base.hpp"
#include "planning/plan/calendar.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/shopping.hpp"
#include "planning/plan/supply_step.hpp"
#include "planning/plan/vessel_step.hpp"
#include "planning/plan/water_step.hpp"

namespace stillheap::plan {
namespace {

std::string number(double value, const char* unit) { return plain::to_text(value, 4) + " " + unit; }

/// Rules of thumb that the earlier stages hold as named values rather than as assumptions.
Assumptions stage_choices(const site::Site& site) {
  const vessel::Allowances cut;
  const auto length = [&](double value_m) { return quantity::format(value_m, Dimension::length, site.units); };
  return {
      {"material: mixing volume ratio", number(material::default_mixing_volume_ratio, "of the sum of loose volumes"),
       "chosen"},
      {"vessel: cloth beyond the wall", length(cut.cloth_beyond_m), "common practice, no source"},
      {"vessel: forms above the brim", length(cut.form_handhold_m), "chosen"},
      {"vessel: spacing of ties", length(cut.tie_spacing_m), "chosen"},
      {"vessel: thickness of the deck", length(vessel::deck_thickness_m), "chosen"},
      {"vessel: stop under each form", "a rod of " + length(vessel::stop_rod_m) + " across its hole", "chosen"},
      {"vessel: seat board under a hole", length(vessel::seat_lap_m) + " of lap on whole wood at each side", "chosen"},
      {"vessel: boards of a closed wall",
       length(cut.wall_board_m) + " wide, posts at most " + length(cut.post_spacing_m) +
           " apart; designed locally for the push on them",
       "chosen"},
      {"vessel: spacing of bearers, at most", length(vessel::BearerWish{}.most_spacing_m), "chosen"},
  };
}

void append(Assumptions& all, const Assumptions& more) { all.insert(all.end(), more.begin(), more.end()); }

/// The stages below know no reader: their sentences are told in the units of the yard here.
Assumptions retold(const Assumptions& all, UnitSystem units) {
  Assumptions told;
  for (const Assumption& one : all) {
    told.push_back(
        {quantity::retold(one.topic, units), quantity::retold(one.value, units), quantity::retold(one.source, units)});
  }
  return told;
}

Assumptions each_once(const Assumptions& all) {
  std::set<std::pair<std::string, std::string>> seen;
  Assumptions once;
  for (const Assumption& one : all) {
    if (seen.emplace(one.topic, one.value).second) once.push_back(one);
  }
  return once;
}

}  // namespace

Assumptions assumptions_of(const Plan& plan) {
  Assumptions all = plan.site.defaults;
  append(all, plan.weather.assumptions);
  append(all, stage_choices(plan.site));
  append(all, forecast_choices(plan.site, plan.weather));
  append(all, water_choices(plan.site));
  append(all, cost_choices(plan.site.units));
  append(all, calendar_choices(plan));
  append(all, supply_choices(plan));
  for (const VesselPlan& vessel : plan.vessels) {
    if (!plan.site.water.by_hand) append(all, water::line_assumptions(line_for(plan.site, vessel.design)));
    if (!vessel.loads.note.empty())
      all.push_back({"loads: " + vessel.design.name, vessel.loads.note, "scope of the load formulas"});
    append(all, vessel.forecast.assumptions);
  }
  return each_once(retold(all, plan.site.units));
}

}  // namespace stillheap::plan
