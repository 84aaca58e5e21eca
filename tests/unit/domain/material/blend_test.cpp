#include "domain/material/blend.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/error.hpp"
#include "domain/material/ranges.hpp"

namespace stillheap::material {
namespace {

Feedstock straw() {
  Feedstock f;
  f.id = "straw";
  f.moisture_wet = 0.10;
  f.carbon_dry = 0.50;
  f.nitrogen_dry = 0.005;
  f.ash_dry = 0.05;
  f.bulk_density_kg_m3 = 100.0;
  f.conductivity_s_m = 0.2;
  f.pool_dry = {0.05, 0.40, 0.20};
  f.pool_rate_20c_per_s = {3e-7, 4e-8, 5e-9};
  return f;
}

Feedstock manure() {
  Feedstock f;
  f.id = "manure";
  f.moisture_wet = 0.80;
  f.carbon_dry = 0.40;
  f.nitrogen_dry = 0.02;
  f.ash_dry = 0.20;
  f.bulk_density_kg_m3 = 800.0;
  f.conductivity_s_m = 0.6;
  f.pool_dry = {0.10, 0.30, 0.15};
  f.pool_rate_20c_per_s = {6e-7, 4e-8, 5e-9};
  return f;
}

std::vector<Part> parts() { return {{straw(), 100.0}, {manure(), 450.0}}; }  // 90 kg dry each

bool warns(const Blend& blend, const std::string& where) {
  for (const Warning& warning : check_ranges(blend)) {
    if (warning.where == where) return true;
  }
  return false;
}

TEST(Blend, AddsWaterAndDryMatterApart) {
  const Blend blend = mix(parts());
  EXPECT_DOUBLE_EQ(blend.mass_wet_kg, 550.0);
  EXPECT_NEAR(blend.mass_dry_kg, 180.0, 1e-9);
  EXPECT_NEAR(blend.moisture_wet, 370.0 / 550.0, 1e-12);
}

TEST(Blend, WeighsCarbonNitrogenAshAndSaltByDryMass) {
  const Blend blend = mix(parts());
  EXPECT_NEAR(blend.carbon_dry, 0.45, 1e-12);
  EXPECT_NEAR(blend.nitrogen_dry, 0.0125, 1e-12);
  EXPECT_NEAR(blend.ash_dry, 0.125, 1e-12);
  EXPECT_NEAR(blend.conductivity_s_m, 0.4, 1e-12);
  EXPECT_NEAR(blend.carbon_to_nitrogen, 36.0, 1e-9);
}

TEST(Blend, CountsOnlyThePoolsCarbonAsDegradable) {
  const Blend blend = mix(parts());
  const double carbon = 90.0 * (0.65 * 0.50 / 0.95 + 0.55 * 0.40 / 0.80);
  EXPECT_NEAR(blend.degradable_carbon_to_nitrogen, carbon / (180.0 * 0.0125), 1e-9);
  EXPECT_LT(blend.degradable_carbon_to_nitrogen, blend.carbon_to_nitrogen);
}

TEST(Blend, KeepsThePartsUptakeWhenPoolsAreMixed) {
  const Blend blend = mix(parts());
  const double of_parts = 90.0 * (0.05 * 3e-7 + 0.10 * 6e-7);
  EXPECT_NEAR(blend.mass_dry_kg * blend.pool_dry[fast] * blend.pool_rate_20c_per_s[fast], of_parts, 1e-18);
}

TEST(Blend, AddsLooseVolumesTimesTheMixingRatio) {
  EXPECT_NEAR(mix(parts()).volume_m3, 1.0 + 0.5625, 1e-12);
  EXPECT_NEAR(mix(parts(), {}, 0.8).volume_m3, 0.8 * 1.5625, 1e-12);
  EXPECT_LT(mix(parts(), {}, 0.8).free_air_space, mix(parts()).free_air_space);
}

TEST(Blend, DoesNotCareForTheOrderOfParts) {
  std::vector<Part> turned = parts();
  std::swap(turned[0], turned[1]);
  EXPECT_NEAR(mix(turned).carbon_to_nitrogen, mix(parts()).carbon_to_nitrogen, 1e-12);
  EXPECT_NEAR(mix(turned).free_air_space, mix(parts()).free_air_space, 1e-12);
}

TEST(Blend, FillsItsPoresWhenSoaked) {
  const Blend dry = mix(std::vector<Part>{{straw(), 100.0}});
  const Blend wet = at_moisture(dry, 0.65);
  const double water_m3 = water_to_add_kg(dry, 0.65) / 1000.0;
  EXPECT_NEAR(wet.volume_m3, dry.volume_m3, 1e-12);
  EXPECT_NEAR(wet.free_air_space, dry.free_air_space - water_m3 / dry.volume_m3, 1e-12);
  EXPECT_NEAR(wet.mass_wet_kg, dry.mass_wet_kg + 1000.0 * water_m3, 1e-9);
  EXPECT_NEAR(wet.mass_dry_kg, dry.mass_dry_kg, 1e-12);
}

TEST(Blend, HasNoNegativeAirWhenOverfilled) { EXPECT_EQ(free_air_space(1200.0, 0.9, 0.1), 0.0); }

TEST(Blend, AsksForDryingWithNegativeWater) { EXPECT_LT(water_to_add_kg(mix(parts()), 0.5), 0.0); }

TEST(Blend, HasInfiniteCarbonToNitrogenWithoutNitrogen) {
  Feedstock pure = straw();
  pure.nitrogen_dry = 0.0;
  EXPECT_TRUE(std::isinf(mix(std::vector<Part>{{pure, 1.0}}).carbon_to_nitrogen));
}

TEST(Blend, RefusesNothingAndWaterAlone) {
  EXPECT_THROW(static_cast<void>(mix({})), InputError);
  Feedstock water = straw();
  water.moisture_wet = 1.0;
  EXPECT_THROW(static_cast<void>(mix(std::vector<Part>{{water, 5.0}})), InputError);
}

TEST(Blend, ReportsEveryBadValueAtOnce) {
  Feedstock bad = straw();
  bad.bulk_density_kg_m3 = 0.0;
  bad.ash_dry = 1.4;
  try {
    static_cast<void>(mix(std::vector<Part>{{bad, -1.0}}));
    FAIL() << "took it";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().size(), 4U);  // mass, density, ash, and pools beyond what is not ash
  }
}

TEST(Blend, RefusesImpossibleMoisture) {
  EXPECT_THROW(static_cast<void>(at_moisture(mix(parts()), 1.0)), InputError);
  EXPECT_THROW(static_cast<void>(water_to_add_kg(mix(parts()), -0.1)), InputError);
}

TEST(Ranges, JudgeEndsAsInside) {
  EXPECT_EQ(judge(0.40, moisture_range()), Standing::low);
  EXPECT_EQ(judge(0.65, moisture_range()), Standing::high);
  EXPECT_EQ(judge(0.399, moisture_range()), Standing::too_low);
  EXPECT_EQ(judge(30.0, carbon_to_nitrogen_range()), Standing::preferred);
}

TEST(Ranges, SayThatTheTradeSoaksWetterThanHandbooks) {
  Blend soaked = mix(parts());
  soaked.moisture_wet = 0.66;
  const Warnings warnings = check_ranges(soaked);
  ASSERT_FALSE(warnings.empty());
  EXPECT_NE(warnings.front().what.find("60 to 70 %"), std::string::npos);
  EXPECT_NE(warnings.front().what.find("handbooks"), std::string::npos);
}

TEST(Ranges, ForgiveTheSolversRoundingAtAnEnd) {
  Blend soaked = mix(parts());
  soaked.moisture_wet = 0.70 + 1e-8;
  EXPECT_TRUE(check_ranges(soaked).front().what.starts_with("wetter than handbooks"));
  soaked.moisture_wet = 0.701;
  EXPECT_TRUE(check_ranges(soaked).front().what.starts_with("too wet"));
}

TEST(Ranges, StaySilentInTheMiddle) {
  Blend good = mix(parts());
  good.moisture_wet = 0.55;
  good.carbon_to_nitrogen = 28.0;
  good.bulk_density_kg_m3 = 400.0;
  good.free_air_space = 0.5;
  good.conductivity_s_m = 0.3;
  EXPECT_TRUE(check_ranges(good).empty());
}

TEST(Ranges, WarnOfDenseAirlessAndSaltyBlends) {
  Blend bad = mix(parts());
  bad.bulk_density_kg_m3 = 700.0;
  bad.free_air_space = 0.2;
  bad.conductivity_s_m = 0.6;
  EXPECT_TRUE(warns(bad, "bulk density"));
  EXPECT_TRUE(warns(bad, "air space"));
  EXPECT_TRUE(warns(bad, "salts"));
}

TEST(Habit, OfOneMaterialIsItsOwn) {
  const Feedstock straw = find_typical("wheat-straw").value();
  const std::vector<Part> parts{{straw, 10.0}};
  const Blend blend = mix(parts);
  EXPECT_DOUBLE_EQ(blend.habit.particle_size_m, straw.habit.particle_size_m);
  EXPECT_DOUBLE_EQ(blend.habit.envelope_kg_m3, straw.habit.envelope_kg_m3);
  EXPECT_DOUBLE_EQ(blend.habit.holding_dry, straw.habit.holding_dry);
  EXPECT_DOUBLE_EQ(blend.habit.most_c, straw.habit.most_c);
  EXPECT_DOUBLE_EQ(blend.kind_dry[static_cast<std::size_t>(Kind::dry_plant)], 1.0);
}

TEST(Habit, LetsTheFinePartRuleTheAirAndTheLivelyPartTheHeat) {
  const Feedstock chips = find_typical("wood-chips").value(), manure = find_typical("horse-manure").value();
  const std::vector<Part> parts{{chips, 1.0 / (1.0 - chips.moisture_wet)}, {manure, 1.0 / (1.0 - manure.moisture_wet)}};
  const Blend blend = mix(parts);
  const double half_way = 0.5 * (chips.habit.particle_size_m + manure.habit.particle_size_m);
  EXPECT_LT(blend.habit.particle_size_m, half_way);
  EXPECT_NEAR(blend.habit.most_c, manure.habit.most_c, 1.0);
  EXPECT_NEAR(blend.habit.holding_dry, 0.5 * (chips.habit.holding_dry + manure.habit.holding_dry), 1e-12);
  EXPECT_NEAR(blend.kind_dry[static_cast<std::size_t>(Kind::wood)], 0.5, 1e-12);
  EXPECT_GT(blend.kind_uptake[static_cast<std::size_t>(Kind::manure)], 0.9);
}

}  // namespace
}  // namespace stillheap::material
