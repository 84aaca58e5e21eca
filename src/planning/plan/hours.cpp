#include "planning/plan/hours.hpp"

#include <algorithm>

#include "core/base/constants.hpp"
#include "planning/plan/practice.hpp"

namespace stillheap::plan {

VesselHours hours_of(const site::Site& site, const VesselPlan& vessel) {
  VesselHours hours;
  hours.soaking = vessel.fill.soak.time_s / constant::seconds_per_hour;
  hours.filling = vessel.fill.people_hours;
  hours.forms_out = vessel.design.channels.empty() ? 0.0 : practice::forms_out_hours;
  hours.covering = practice::cover_hours;
  hours.worms = practice::worms_hours;
  hours.harvest =
      std::max(practice::least_harvest_hours, practice::harvest_share_of_filling * vessel.fill.people_hours);
  hours.daily = site.labour.daily_minutes_per_vessel / 60.0;
  return hours;
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
