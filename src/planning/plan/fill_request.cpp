#include "planning/plan/fill_request.hpp"

#include <algorithm>

#include "planning/plan/blend_step.hpp"
#include "planning/plan/count_step.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/vessel_step.hpp"

namespace stillheap::plan {

void aim_at_moisture(site::Site& site, double moisture_wet) {
  site.blend.moisture_target_wet = moisture_wet;
  material::Range& allowed = site.blend.limits.moisture_wet;
  allowed.low = std::min(allowed.low, moisture_wet);
  allowed.high = std::max(allowed.high, moisture_wet);
}

site::Site site_of_filling(site::Site site, const Filling& filling) {
  site.start_date = filling.date;
  if (filling.moisture_wet) aim_at_moisture(site, *filling.moisture_wet);
  return site;
}

VesselPlan vessel_of_filling(const site::Site& site, const vessel::Design& design, const Filling& filling) {
  const Recipe recipe = choose_recipe(site, starting_counts(site));
  VesselPlan vessel =
      plan_vessel(site, design, scaled_to(recipe, vessel::material_volume_m3(design)), recipe.moisture_wet);
  vessel.own = filling.own;
  return vessel;
}

forecast::Request fill_request(const site::Site& site, const vessel::Design& design, const Filling& filling, int days) {
  site::Site then = site_of_filling(site, filling);
  then.forecast_days = days;
  then.grid = forecast::Grid::draft;
  forecast::Request request = request_for(then, weather_of(then), vessel_of_filling(then, design, filling));
  request.own = {};
  return request;
}

}  // namespace stillheap::plan
