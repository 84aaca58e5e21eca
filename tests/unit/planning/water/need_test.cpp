#include "planning/water/need.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"

namespace stillheap::water {
namespace {

/// 10 litres a minute.
LineFlow ten_litres() {
  LineFlow flow;
  flow.total_flow_m3_s = 0.01 / 60.0;
  return flow;
}

MonthlyLoss losing(double evaporated_kg_day, double rain_kg_day) {
  MonthlyLoss loss;
  loss.evaporated_kg_s.fill(evaporated_kg_day / 86400.0);
  loss.rain_kg_s.fill(rain_kg_day / 86400.0);
  return loss;
}

TEST(PlanWater, ReplacesWhatRainDoesNot) {
  const MonthlyWater plan = plan_water(losing(12.0, 2.0), ten_litres(), 1.0, 0.0, 0.3);
  EXPECT_NEAR(plan.need_kg_day[4], 10.0, 1e-12);
  EXPECT_NEAR(plan.minutes_day[4], 10.0 / 9.982, 1e-12);
  EXPECT_NEAR(plan.drained_kg_day[4], 0.0, 1e-12);
  EXPECT_NEAR(plan.salt_out_g_day[4], 0.0, 1e-12);
  EXPECT_NEAR(plan.most_kg_day, 10.0, 1e-12);
}

TEST(PlanWater, AddsOversprayAndLeaching) {
  const MonthlyWater plan = plan_water(losing(9.0, 0.0), ten_litres(), 0.8, 0.1, 0.5);
  EXPECT_NEAR(plan.need_kg_day[0], 9.0 / 0.9 / 0.8, 1e-12);
  EXPECT_NEAR(plan.drained_kg_day[0], 1.0, 1e-12);
  EXPECT_NEAR(plan.salt_out_g_day[0], 3.2 / 998.2 * 1000.0, 1e-12) << "5 dS/m holds 3.2 g/L";
}

TEST(PlanWater, BalancesWhatEnters) {
  const MonthlyWater plan = plan_water(losing(14.0, 3.0), ten_litres(), 0.7, 0.15, 0.5);
  EXPECT_NEAR(plan.need_kg_day[7] * 0.7 + 3.0, 14.0 + plan.drained_kg_day[7], 1e-12);
}

TEST(PlanWater, DrainsRainBeyondEvaporationAndRunsNothing) {
  const MonthlyWater plan = plan_water(losing(3.0, 8.0), ten_litres(), 0.8, 0.1, 0.2);
  EXPECT_EQ(plan.need_kg_day[2], 0.0);
  EXPECT_EQ(plan.minutes_day[2], 0.0);
  EXPECT_NEAR(plan.drained_kg_day[2], 5.0, 1e-12);
  EXPECT_GT(plan.salt_out_g_day[2], 0.0);
}

TEST(PlanWater, KeepsMonthsApart) {
  MonthlyLoss loss = losing(5.0, 0.0);
  loss.evaporated_kg_s[6] = 20.0 / 86400.0;
  const MonthlyWater plan = plan_water(loss, ten_litres(), 1.0, 0.0, 0.2);
  EXPECT_NEAR(plan.need_kg_day[5], 5.0, 1e-12);
  EXPECT_NEAR(plan.most_kg_day, 20.0, 1e-12);
}

TEST(PlanWater, RefusesSharesThatCannotBeAndADeadLine) {
  EXPECT_THROW((void)plan_water(losing(5, 0), ten_litres(), 0.0, 0.1, 0.2), InputError);
  EXPECT_THROW((void)plan_water(losing(5, 0), ten_litres(), 1.2, 0.1, 0.2), InputError);
  EXPECT_THROW((void)plan_water(losing(5, 0), ten_litres(), 0.8, 1.0, 0.2), InputError);
  EXPECT_THROW((void)plan_water(losing(5, 0), ten_litres(), 0.8, 0.1, -0.2), InputError);
  EXPECT_THROW((void)plan_water(losing(5, 0), LineFlow{}, 0.8, 0.1, 0.2), InputError);
  EXPECT_NO_THROW((void)plan_water(losing(0, 5), LineFlow{}, 0.8, 0.1, 0.2));
}

}  // namespace
}  // namespace stillheap::water
