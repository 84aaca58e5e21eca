#include "planning/plan/records.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "planning/plan/plan_json.hpp"
#include "yard.hpp"

namespace stillheap::plan {
namespace {

Plan small_plan() { return make_plan(test::small_yard(), {}, test::small_engine()); }

std::size_t lines(const std::string& text) {
  std::size_t count = 0;
  for (std::size_t at = text.find("\r\n"); at != std::string::npos; at = text.find("\r\n", at + 2)) ++count;
  return count;
}

TEST(PlanJson, HoldsTheAnswerWithUnitsInItsKeys) {
  const Plan plan = small_plan();
  const auto json = nlohmann::json::parse(to_text(to_json(plan)));
  EXPECT_EQ(json["schema_version"], 4);
  EXPECT_EQ(json["vessels_needed"]["middle"], 2);
  EXPECT_EQ(json["vessels"].size(), 1U);
  const auto& vessel = json["vessels"][0];
  EXPECT_NEAR(vessel["design"]["material_volume_m3"].get<double>(), vessel::material_volume_m3(plan.vessels[0].design),
              1e-12);
  EXPECT_NEAR(vessel["outlook"]["peak_temperature_c"]["middle"].get<double>(), 65.0, 1e-12);
  EXPECT_EQ(vessel["water"]["programme"]["half_months"].size(), plan.vessels[0].programme.rows.size());
  EXPECT_EQ(json["cautions"].size(), plan.cautions.size());
  EXPECT_EQ(json["assumptions"].size(), plan.assumptions.size());
  EXPECT_EQ(json["calendar"].size(), plan.calendar.size());
}

TEST(PlanJson, NamesNoPlaceOfTheMachine) {
  const Plan plan = small_plan();
  EXPECT_EQ(to_text(to_json(plan)).find("/somewhere"), std::string::npos);
  EXPECT_EQ(to_text(summary_json(plan)).find("/somewhere"), std::string::npos);
}

TEST(PlanJson, WritesNullForWhatIsNoNumberAndReplacesBrokenText) {
  Plan plan = small_plan();
  plan.vessels[0].blend_soaked.carbon_to_nitrogen = INFINITY;
  plan.site.name = "bad \xff byte";
  const auto json = nlohmann::json::parse(to_text(to_json(plan)));
  EXPECT_TRUE(json["vessels"][0]["blend_soaked"]["carbon_to_nitrogen"].is_null());
  EXPECT_FALSE(json["site"]["name"].get<std::string>().empty());
}

TEST(PlanJson, IsTheSameForTheSamePlan) { EXPECT_EQ(to_text(to_json(small_plan())), to_text(to_json(small_plan()))); }

TEST(Records, HoldOneRowALine) {
  const Plan plan = small_plan();
  EXPECT_EQ(lines(calendar_csv(plan)), plan.calendar.size() + 1);
  EXPECT_EQ(lines(assumptions_csv(plan)), plan.assumptions.size() + 1);
  EXPECT_EQ(lines(shopping_csv(plan)), plan.shopping.size() + plan.feedstock_shopping.size() + 1);
  EXPECT_EQ(lines(blend_csv(plan)), 1U + 2U + 2U);
  EXPECT_EQ(lines(water_csv(plan)), plan.vessels[0].programme.rows.size() + 1);
  EXPECT_EQ(lines(fill_csv(plan)), plan.vessels[0].fill.steps.size() + 1);
}

TEST(Records, MarkWhatIsNotPriced) { EXPECT_NE(shopping_csv(small_plan()).find(",not priced"), std::string::npos); }

}  // namespace
}  // namespace stillheap::plan
