#include "planning/fill/fill.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"
#include "planning/fill/lifting.hpp"
#include "planning/fill/rotation.hpp"
#include "planning/fill/steps.hpp"

namespace stillheap::fill {
namespace {

constexpr double reach_m = 0.40;        // chosen: hands before the ankles, a pail held against the body
constexpr double pail_handle_m = 0.30;  // chosen: hands on a pail that stands on the ground
constexpr double grip = 0.95;           // fair grip, NIOSH 94-110 table 7, hands below 0.75 m

void check(const vessel::Design& design, const material::Blend& blend, const Practice& practice) {
  std::vector<Problem> problems;
  const auto want = [&](bool good, const char* where, const char* what, const char* mend) {
    if (!good) problems.push_back({where, what, mend});
  };
  want(practice.pail_m3 > 0.0, "filling.pail", "holds nothing", "give its volume, for example \"19 L\"");
  want(practice.pails_a_lift > 0, "filling.pails_a_lift", "is less than 1", "give a whole number from 1 on");
  want(practice.people > 0, "filling.people", "is less than 1", "give a whole number from 1 on");
  want(practice.pails_per_person_hour > 0.0, "filling.pails_per_person_hour", "is not above 0",
       "give the pails one person fills and tips in an hour, about 13");
  want(practice.inoculum_share >= 0.0, "filling.inoculum_share", "is below 0", "give a share from 0 on");
  want(vessel::material_volume_m3(design) > 0.0, "vessel", "has no room for material",
       "check footprint, fill height and channels");
  want(blend.volume_m3 > 0.0, "blend", "has no volume", "give at least one feedstock with a mass and a bulk density");
  if (!problems.empty()) throw InputError(problems);
}

/// The same blend in another amount.
material::Blend scaled(material::Blend blend, double volume_m3) {
  const double factor = volume_m3 / blend.volume_m3;
  for (material::Part& part : blend.parts) part.mass_wet_kg *= factor;
  blend.mass_wet_kg *= factor;
  blend.mass_dry_kg *= factor;
  blend.volume_m3 = volume_m3;
  return blend;
}

void judge_pail(const vessel::Design& design, double bulk_density_kg_m3, const Practice& practice, FillPlan& fill) {
  fill.pail_mass_kg = bulk_density_kg_m3 * practice.pail_m3 + empty_pail_kg;
  Lift lift;
  lift.horizontal_m = reach_m;
  lift.start_height_m = pail_handle_m;
  lift.travel_m = std::max(design.height_m - pail_handle_m, 0.0);
  lift.frequency_factor = frequency_factor(practice.pails_per_person_hour / 60.0);
  lift.coupling_factor = grip;
  fill.pail_limit_kg = recommended_weight_limit_kg(lift);
  fill.lifting_index = fill.pail_limit_kg > 0.0 ? fill.pail_mass_kg / fill.pail_limit_kg : 0.0;
}

double clock_of(const vessel::Design& design, const FillPlan& fill, const material::Bath& bath,
                const Practice& practice) {
  const std::vector<LiftTurn> turns = rotation_of(design, fill, bath, practice);
  return turns.empty() ? 0.0 : turns.back().end_s;
}

void set_clock(const vessel::Design& design, const material::Bath& bath, const Practice& practice, FillPlan& fill) {
  fill.clock_s = clock_of(design, fill, bath, practice);
  constexpr int most_baths = 20;  // chosen: as many as the site file takes
  Practice tried = practice;
  for (tried.baths = 1; tried.baths <= most_baths; ++tried.baths) {
    if (clock_of(design, fill, bath, tried) > working_day_s) continue;
    fill.baths_for_a_day = tried.baths;
    return;
  }
}

}  // namespace

FillPlan plan_fill(const vessel::Design& design, const material::Blend& as_delivered, double moisture_target_wet,
                   const material::Bath& bath, const Practice& practice, UnitSystem units) {
  check(design, as_delivered, practice);
  const double volume = vessel::material_volume_m3(design);
  const material::Blend blend = scaled(as_delivered, volume);

  FillPlan fill;
  double loose = 0.0;
  for (const material::Part& part : blend.parts) loose += part.mass_wet_kg / part.feedstock.bulk_density_kg_m3;
  const double settled = volume / loose;  // 1 where the material lies in the vessel as in a pail
  // A hair of slack, so that a volume of exactly n pails stays n whatever the rounding.
  fill.pails = static_cast<int>(std::ceil(loose / practice.pail_m3 - 1e-9));
  fill.lifts = (fill.pails + practice.pails_a_lift - 1) / practice.pails_a_lift;
  fill.lift_height_m = practice.pails_a_lift * practice.pail_m3 * settled / vessel::material_area_m2(design);
  fill.people_hours = fill.pails / practice.pails_per_person_hour;
  fill.hours = fill.people_hours / practice.people;
  fill.inoculum_kg = practice.inoculum_share * blend.mass_dry_kg;
  fill.soak = material::plan_soak(blend, moisture_target_wet, bath);
  const double bulk_density = fill.soak.too_wet_already
                                  ? blend.bulk_density_kg_m3
                                  : material::at_moisture(blend, moisture_target_wet).bulk_density_kg_m3;
  judge_pail(design, bulk_density * settled, practice, fill);
  set_clock(design, bath, practice, fill);
  fill.steps = steps_of(design, fill, bath, practice, units);
  return fill;
}

}  // namespace stillheap::fill
