#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Work at one vessel, hours of all people together. Filling follows from the site file, the short jobs are chosen
/// (practice.hpp).
struct VesselHours {
  double soaking = 0.0;  ///< waiting for the bath, one person; the soaking itself is in the pace of filling
  double filling = 0.0;
  double forms_out = 0.0;  ///< 0 without channels
  double covering = 0.0;
  double worms = 0.0;
  double harvest = 0.0;
  double daily = 0.0;             ///< a day
  double watering_by_hand = 0.0;  ///< all runs of the programme; 0 by a line on a timer
};

/// Vessels of this kind that one working day fills, at least one and no more than there are.
[[nodiscard]] int filled_in_a_day(const VesselPlan& vessel);

/// Working days from a vessel's first pail to its last.
[[nodiscard]] int days_of_filling(const VesselPlan& vessel);

/// Days from one filling day to the next: the forms of the first must be out before they are wanted again.
[[nodiscard]] int days_between_fillings(const site::Site& site, const VesselPlan& vessel);

/// From the first vessel of a kind to the last, the waiting for baths and forms included.
[[nodiscard]] double days_to_fill(const site::Site& site, const VesselPlan& vessel);

/// What the short jobs are taken to last, for the reports.
[[nodiscard]] std::string short_jobs_words();

[[nodiscard]] VesselHours hours_of(const site::Site& site, const VesselPlan& vessel);

}  // namespace stillheap::plan
