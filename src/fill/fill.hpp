#pragma once
#include <string>
#include <vector>

#include "material/blend.hpp"
#include "material/finder.hpp"
#include "vessel/design.hpp"

namespace stillheap::fill {

/// How the people fill. All defaults are common practice without source.
struct Practice {
  double pail_m3 = 0.0189270589;      ///< 5 US gallons, exact conversion
  int pails_a_lift = 7;
  int people = 2;
  double pails_per_person_hour = 13.0;
  double inoculum_share = 0.0;        ///< finished compost per dry mass of fill
  double forms_out_after_s = 86400.0;
};

struct FillPlan {
  int pails = 0;
  int lifts = 0;
  double lift_height_m = 0.0;
  double people_hours = 0.0;
  double hours = 0.0;                 ///< on the clock, with that many people
  double inoculum_kg = 0.0;
  material::SoakPlan soak;
  std::vector<std::string> steps;     ///< order of work, one sentence each, units in the text
};

/// Plans one vessel's fill with the soaked blend.
[[nodiscard]] FillPlan plan_fill(const vessel::Design& design, const material::Blend& as_delivered,
                                 double moisture_target_wet, const material::Bath& bath, const Practice& practice);

}  // namespace stillheap::fill
