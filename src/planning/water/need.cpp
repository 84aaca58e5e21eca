#include "planning/water/need.hpp"

#include <algorithm>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/material/salts.hpp"

namespace stillheap::water {
namespace {

constexpr double seconds_per_minute = 60.0;
constexpr double gram_per_kilogram = 1000.0;

void check(double application_efficiency, double leaching_share, double drain_conductivity_s_m) {
  std::vector<Problem> problems;
  if (!(application_efficiency > 0.0 && application_efficiency <= 1.0)) {
    problems.push_back({"water, application efficiency", std::to_string(application_efficiency) + " cannot be",
                        "give more than 0 and at most 1 (100 %)"});
  }
  if (!(leaching_share >= 0.0 && leaching_share < 1.0)) {
    problems.push_back(
        {"water, leaching share", std::to_string(leaching_share) + " cannot be", "give 0 to less than 1 (100 %)"});
  }
  if (!(drain_conductivity_s_m >= 0.0)) {
    problems.push_back({"water, conductivity of the drainage",
                        std::to_string(drain_conductivity_s_m) + " S/m cannot be", "give 0 or more"});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

double minutes_for(double kg_day, const LineFlow& flow) {
  if (kg_day <= 0.0) return 0.0;
  if (flow.total_flow_m3_s <= 0.0) throw InputError("water line", "gives no water", "check line and supply");
  return kg_day / (flow.total_flow_m3_s * water_density_kg_m3) / seconds_per_minute;
}

}  // namespace

MonthlyWater plan_water(const MonthlyLoss& loss, const LineFlow& flow, double application_efficiency,
                        double leaching_share, double drain_conductivity_s_m) {
  check(application_efficiency, leaching_share, drain_conductivity_s_m);
  MonthlyWater plan;
  const double salt_g_kg =
      material::salt_in_water_kg_m3(drain_conductivity_s_m) / water_density_kg_m3 * gram_per_kilogram;
  for (std::size_t month = 0; month < 12; ++month) {
    const double lack = (loss.evaporated_kg_s[month] - loss.rain_kg_s[month]) * constant::seconds_per_day;
    const double entering = std::max(0.0, lack) / (1.0 - leaching_share);
    plan.need_kg_day[month] = entering / application_efficiency;
    plan.minutes_day[month] = minutes_for(plan.need_kg_day[month], flow);
    plan.drained_kg_day[month] = leaching_share * entering + std::max(0.0, -lack);
    plan.salt_out_g_day[month] = plan.drained_kg_day[month] * salt_g_kg;
    plan.most_kg_day = std::max(plan.most_kg_day, plan.need_kg_day[month]);
  }
  return plan;
}

}  // namespace stillheap::water
