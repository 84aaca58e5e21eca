#include <cmath>

#include "core/base/error.hpp"
#include "domain/material/finder.hpp"

namespace stillheap::material {
namespace {

constexpr double water_kg_m3 = 1000.0;  // near enough to any tap water

void check(const Bath& bath) {
  std::vector<Problem> problems;
  if (!(bath.volume_m3 > 0.0)) problems.push_back({"bath.volume", "is not above 0 m3", "give the water it holds"});
  if (!(bath.load_share > 0.0)) {
    problems.push_back(
        {"bath.load_share", "is not above 0", "give loose feedstock a batch per bath volume, about 0.5"});
  }
  if (!(bath.soak_s >= 0.0 && bath.drain_s >= 0.0)) {
    problems.push_back({"bath.soak and bath.drain", "run backwards", "give times of 0 or more"});
  }
  if (!problems.empty()) throw InputError(problems);
}

}  // namespace

SoakPlan plan_soak(const Blend& as_delivered, double moisture_target_wet, const Bath& bath) {
  check(bath);
  SoakPlan plan;
  const double water_kg = water_to_add_kg(as_delivered, moisture_target_wet);
  plan.too_wet_already = water_kg < 0.0;
  if (water_kg <= 0.0) return plan;
  plan.water_taken_kg = water_kg;
  plan.water_to_draw_kg = water_kg + bath.volume_m3 * water_kg_m3;
  // A hair of slack, so that a volume of exactly n batches stays n whatever the rounding.
  plan.batches = static_cast<int>(std::ceil(as_delivered.volume_m3 / (bath.volume_m3 * bath.load_share) - 1e-9));
  plan.time_s = plan.batches * (bath.soak_s + bath.drain_s);
  return plan;
}

}  // namespace stillheap::material
