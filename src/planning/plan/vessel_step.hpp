#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Air path, loads, parts, fill and water line of one vessel of this kind, from its blend as delivered and the
/// moisture it is soaked to; a blend that arrives wetter is filled as it is, for soaking cannot dry it.
/// Forecast, water need and what follows from them are still empty.
[[nodiscard]] VesselPlan plan_vessel(const site::Site& site, const vessel::Design& laid_out,
                                     const material::Blend& as_delivered, double moisture_wet);

/// The line of the site file; where its length is not given, once around the vessel.
[[nodiscard]] water::Line line_for(const site::Site& site, const vessel::Design& design);

}  // namespace stillheap::plan
