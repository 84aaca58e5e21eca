#include "planning/plan/hours.hpp"

#include <algorithm>

#include "core/base/constants.hpp"
#include "planning/plan/practice.hpp"

namespace stillheap::plan {

VesselHours hours_of(const site::Site& site, const VesselPlan& vessel) {
  VesselHours hours;
  hours.soaking = std::max(0.0, vessel.fill.clock_s / constant::seconds_per_hour - vessel.fill.hours);
  hours.filling = vessel.fill.people_hours;
  hours.forms_out = vessel.design.channels.empty() ? 0.0 : practice::forms_out_hours;
  hours.covering = practice::cover_hours;
  hours.worms = practice::worms_hours;
  hours.harvest =
      std::max(practice::least_harvest_hours, practice::harvest_share_of_filling * vessel.fill.people_hours);
  if (site.water.by_hand) {
    for (const water::Row& row : vessel.programme.rows)
      hours.watering_by_hand += row.runs * row.steps * practice::minutes_a_can / 60.0;
  }
  hours.daily = site.labour.daily_minutes_per_vessel / 60.0;
  return hours;
}

int filled_in_a_day(const VesselPlan& vessel) {
  const double clock_s = std::max(vessel.fill.clock_s, 360.0);
  return std::clamp(static_cast<int>(fill::working_day_s / clock_s), 1, std::max(1, vessel.design.count));
}

int days_of_filling(const VesselPlan& vessel) {
  return std::max(1, static_cast<int>(std::ceil(vessel.fill.clock_s / fill::working_day_s - 1e-9)));
}

int days_between_fillings(const site::Site& site, const VesselPlan& vessel) {
  const double filling_s = (days_of_filling(vessel) - 1) * constant::seconds_per_day + fill::working_day_s;
  const double until_free_s = filling_s + (vessel.design.channels.empty() ? 0.0 : site.practice.forms_out_after_s);
  return std::max(1, static_cast<int>(std::ceil(until_free_s / constant::seconds_per_day - 1e-9)));
}

double days_to_fill(const site::Site& site, const VesselPlan& vessel) {
  const double own_days = days_of_filling(vessel);
  const double filling_days = std::ceil(static_cast<double>(vessel.design.count) / filled_in_a_day(vessel));
  return (filling_days - 1.0) * days_between_fillings(site, vessel) + own_days;
}

std::string short_jobs_words() {
  const auto words = [](double hours) {
    return quantity::format(hours * constant::seconds_per_hour, Dimension::duration, UnitSystem::metric);
  };
  return "forms out " + words(practice::forms_out_hours) + ", covering " + words(practice::cover_hours) + ", worms " +
         words(practice::worms_hours) + ", harvest " + words(practice::harvest_share_of_filling) +
         " for each hour of filling and no less than " + words(practice::least_harvest_hours) + ", all people together";
}

}  // namespace stillheap::plan
