#pragma once
#include <string>
#include <vector>

#include "core/quantity/quantity.hpp"
#include "domain/material/blend.hpp"
#include "domain/material/finder.hpp"
#include "domain/vessel/design.hpp"

namespace stillheap::fill {

inline constexpr double working_day_s = 8.0 * 3600.0;  ///< chosen

/// How the people fill. All defaults are common practice without source.
struct Practice {
  double pail_m3 = 0.0189270589;  ///< 5 US gallons, exact conversion
  int pails_a_lift = 7;
  int people = 2;
  double pails_per_person_hour = 13.0;
  double inoculum_share = 0.0;  ///< finished compost per dry mass of fill
  double forms_out_after_s = 86400.0;
  int baths = 1;           ///< that soak side by side
  bool water_line = true;  ///< false: watered by hand
};

struct FillPlan {
  int pails = 0;
  int lifts = 0;
  double lift_height_m = 0.0;
  double people_hours = 0.0;
  double hours = 0.0;       ///< of carrying and spreading, with that many people
  double clock_s = 0.0;     ///< from the first batch going in to the last lift spread, the baths' waiting included
  int baths_for_a_day = 0;  ///< the fewest baths that let it end in one working day; 0: the carrying alone is longer
  double inoculum_kg = 0.0;
  material::SoakPlan soak;
  double pail_mass_kg = 0.0;       ///< of a full pail of soaked blend, pail included
  double pail_limit_kg = 0.0;      ///< recommended limit for lifting it from the ground over the brim; 0: do not
  double lifting_index = 0.0;      ///< mass over limit, above 1 is a strain; 0 when the limit is 0
  std::vector<std::string> steps;  ///< order of work, one sentence or two each, units in the text
};

/// Plans one vessel's fill with the soaked blend. The blend is scaled to the vessel's volume of material first:
/// pails are counted loose and are taken to keep their volume. A blend that is wetter than the target already is
/// planned as delivered. Throws InputError for a practice or a vessel that cannot be (no pail, nobody, no room).
[[nodiscard]] FillPlan plan_fill(const vessel::Design& design, const material::Blend& as_delivered,
                                 double moisture_target_wet, const material::Bath& bath, const Practice& practice,
                                 UnitSystem units = UnitSystem::metric);

}  // namespace stillheap::fill
