#include "planning/fill/fill.hpp"

#include <gtest/gtest.h>

#include <cctype>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"

namespace stillheap::fill {
namespace {

vessel::Design round_vessel() {
  vessel::Design design;
  design.diameter_m = 1.2;
  design.height_m = 1.4;
  design.fill_height_m = 1.3;
  design.lining_overlap_m = 0.15;
  design.lining_fold_m = 0.15;
  design.channels = vessel::ring_channels({4, 0.3, 0.0}, 0.1, true);
  return design;
}

/// A material of 200 kg/m3 at 25 % moisture, 150 kg dry a cubic metre.
material::Blend dry_blend(double volume_m3, double moisture_wet = 0.25) {
  material::Feedstock feedstock;
  feedstock.id = "chips";
  feedstock.name = "Chips";
  feedstock.bulk_density_kg_m3 = 150.0 / (1.0 - moisture_wet);
  material::Blend blend;
  blend.volume_m3 = volume_m3;
  blend.mass_dry_kg = 150.0 * volume_m3;
  blend.mass_wet_kg = blend.mass_dry_kg / (1.0 - moisture_wet);
  blend.moisture_wet = moisture_wet;
  blend.ash_dry = 0.05;
  blend.bulk_density_kg_m3 = blend.mass_wet_kg / volume_m3;
  blend.parts = {{feedstock, blend.mass_wet_kg}};
  return blend;
}

bool any_step_says(const FillPlan& fill, const std::string& words) {
  for (const std::string& step : fill.steps)
    if (step.find(words) != std::string::npos) return true;
  return false;
}

TEST(Fill, CountsPailsLiftsAndHours) {
  const vessel::Design design = round_vessel();
  Practice practice;
  practice.pail_m3 = vessel::material_volume_m3(design) / 65.0;
  practice.pails_a_lift = 8;
  practice.people = 2;
  practice.pails_per_person_hour = 10.0;
  const FillPlan fill = plan_fill(design, dry_blend(1.0), 0.65, {}, practice);
  EXPECT_EQ(fill.pails, 65);
  EXPECT_EQ(fill.lifts, 9);
  EXPECT_NEAR(fill.lift_height_m, 1.3 * 8.0 / 65.0, 1e-12);
  EXPECT_NEAR(fill.people_hours, 6.5, 1e-12);
  EXPECT_NEAR(fill.hours, 3.25, 1e-12);
  EXPECT_TRUE(any_step_says(fill, "9 lifts fill the vessel, 65 pails in all, 1 of them in the last lift"));
}

TEST(Fill, DoesNotDependOnTheAmountTheBlendWasGivenIn) {
  const vessel::Design design = round_vessel();
  Practice practice;
  practice.inoculum_share = 0.02;
  const FillPlan one = plan_fill(design, dry_blend(1.0), 0.65, {}, practice);
  const FillPlan ten = plan_fill(design, dry_blend(10.0), 0.65, {}, practice);
  EXPECT_NEAR(one.soak.water_taken_kg, ten.soak.water_taken_kg, 1e-9);
  EXPECT_EQ(one.soak.batches, ten.soak.batches);
  EXPECT_NEAR(one.inoculum_kg, 0.02 * 150.0 * vessel::material_volume_m3(design), 1e-9);
  EXPECT_NEAR(ten.inoculum_kg, one.inoculum_kg, 1e-9);
}

TEST(Fill, SoaksFromTheMoistureAsDeliveredToTheWantedOne) {
  const vessel::Design design = round_vessel();
  const FillPlan fill = plan_fill(design, dry_blend(1.0), 0.65, {}, {});
  // Wet mass at 65 % is dry / 0.35, as delivered dry / 0.75.
  const double dry = 150.0 * vessel::material_volume_m3(design);
  EXPECT_NEAR(fill.soak.water_taken_kg, dry / 0.35 - dry / 0.75, 1e-6);
  EXPECT_NEAR(fill.pail_mass_kg, 150.0 / 0.35 * Practice{}.pail_m3 + 1.0, 1e-6);
  EXPECT_TRUE(any_step_says(fill, "Soak the blend in"));
}

TEST(Fill, DoesNotSoakWhatIsTooWet) {
  const FillPlan fill = plan_fill(round_vessel(), dry_blend(1.0, 0.8), 0.65, {}, {});
  EXPECT_TRUE(fill.soak.too_wet_already);
  EXPECT_TRUE(any_step_says(fill, "Do not soak"));
  EXPECT_NEAR(fill.pail_mass_kg, 150.0 / 0.2 * Practice{}.pail_m3 + 1.0, 1e-6);
}

TEST(Fill, SaysWhenAPailIsTooHeavyOrTheBrimTooHigh) {
  vessel::Design design = round_vessel();
  Practice practice;
  practice.pail_m3 = 0.03;
  const FillPlan heavy = plan_fill(design, dry_blend(1.0), 0.65, {}, practice);
  EXPECT_GT(heavy.lifting_index, 1.0);
  EXPECT_TRUE(any_step_says(heavy, "fill pails to"));
  practice.pail_m3 = 0.008;
  const FillPlan light = plan_fill(design, dry_blend(1.0), 0.65, {}, practice);
  EXPECT_LT(light.lifting_index, 1.0);
  EXPECT_FALSE(any_step_says(light, "fill pails to"));
  design.height_m = 2.2;
  EXPECT_TRUE(any_step_says(plan_fill(design, dry_blend(1.0), 0.65, {}, practice), "too high to lift"));
}

TEST(Steps, LeaveOutFormsWhereThereAreNone) {
  vessel::Design design = round_vessel();
  EXPECT_TRUE(any_step_says(plan_fill(design, dry_blend(1.0), 0.65, {}, {}), "5 forms"));
  design.channels.clear();
  const FillPlan fill = plan_fill(design, dry_blend(1.0), 0.65, {}, {});
  EXPECT_FALSE(any_step_says(fill, "form "));
  EXPECT_FALSE(any_step_says(fill, "forms of"));
}

TEST(Steps, SpeakTheUnitsTheReaderUses) {
  const FillPlan metric = plan_fill(round_vessel(), dry_blend(1.0), 0.65, {}, {}, UnitSystem::metric);
  const FillPlan us = plan_fill(round_vessel(), dry_blend(1.0), 0.65, {}, {}, UnitSystem::us);
  EXPECT_TRUE(any_step_says(metric, "100 mm"));
  EXPECT_TRUE(any_step_says(metric, " kg"));
  EXPECT_FALSE(any_step_says(us, " mm"));
  EXPECT_FALSE(any_step_says(us, " kg"));
  EXPECT_TRUE(any_step_says(us, " in"));
  EXPECT_TRUE(any_step_says(us, " lb"));
}

TEST(Steps, AreSentences) {
  for (const std::string& step : plan_fill(round_vessel(), dry_blend(1.0), 0.65, {}, {}).steps) {
    EXPECT_TRUE(std::isupper(static_cast<unsigned char>(step.front()))) << step;
    EXPECT_EQ(step.back(), '.') << step;
  }
}

TEST(Fill, RefusesWhatCannotBe) {
  Practice practice;
  practice.people = 0;
  practice.pail_m3 = 0.0;
  try {
    (void)plan_fill(round_vessel(), dry_blend(1.0), 0.65, {}, practice);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().size(), 2U) << "all problems at once";
  }
  vessel::Design none = round_vessel();
  none.fill_height_m = 0.0;
  EXPECT_THROW((void)plan_fill(none, dry_blend(1.0), 0.65, {}, {}), InputError);
}

}  // namespace
}  // namespace stillheap::fill
