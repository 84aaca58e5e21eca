#include "planning/plan/blend_step.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "yard.hpp"

namespace stillheap::plan {
namespace {

TEST(BlendStep, ScalesFixedSharesToTheVolume) {
  const site::Site site = test::small_yard();
  const Recipe recipe = choose_recipe(site, {2});
  EXPECT_FALSE(recipe.by_programme);
  const material::Blend blend = scaled_to(recipe, 1.3);
  EXPECT_NEAR(blend.volume_m3, 1.3, 1e-9);
  ASSERT_EQ(blend.parts.size(), 2U);
  EXPECT_NEAR(blend.parts[0].mass_wet_kg, blend.parts[1].mass_wet_kg, 1e-9);
  EXPECT_TRUE(recipe.warnings.empty());
}

TEST(BlendStep, WarnsWhenStockDoesNotLast) {
  site::Site site = test::small_yard();
  site.offers[0].stock_kg = 10.0;
  const Recipe recipe = choose_recipe(site, {2});
  ASSERT_EQ(recipe.warnings.size(), 1U);
  EXPECT_NE(recipe.warnings[0].what.find("10 kg in stock"), std::string::npos) << recipe.warnings[0].what;
}

TEST(BlendStep, FindsABlendWithinTheLimits) {
  site::Site site = test::small_yard();
  site.blend.shares_by_mass.clear();
  const Recipe recipe = choose_recipe(site, {2});
  ASSERT_TRUE(recipe.by_programme);
  ASSERT_TRUE(recipe.found.feasible);
  const double carbon_to_nitrogen = scaled_to(recipe, 1.0).carbon_to_nitrogen;
  EXPECT_GE(carbon_to_nitrogen, site.blend.limits.carbon_to_nitrogen.low - 1e-6);
  EXPECT_LE(carbon_to_nitrogen, site.blend.limits.carbon_to_nitrogen.high + 1e-6);
}

TEST(BlendStep, NamesTheLimitsInConflict) {
  site::Site site = test::small_yard();
  site.blend.shares_by_mass.clear();
  site.blend.limits.carbon_to_nitrogen = {5.0, 6.0};
  try {
    static_cast<void>(choose_recipe(site, {2}));
    FAIL();
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("yard.toml: blend"), std::string::npos) << error.what();
    EXPECT_NE(std::string(error.what()).find("carbon"), std::string::npos) << error.what();
    EXPECT_TRUE(std::string(error.what()).starts_with(site.file.string())) << "as the file was named, as in `check`";
  }
}

TEST(BlendStep, ComparesRecipesByShare) {
  Recipe a;
  Recipe b;
  a.parts = {{test::small_yard().offers[0].feedstock, 1.0}, {test::small_yard().offers[1].feedstock, 1.0}};
  b.parts = {{test::small_yard().offers[0].feedstock, 3.0}};
  EXPECT_NEAR(share_difference(a, b), 0.5, 1e-12);
  EXPECT_NEAR(share_difference(b, a), 0.5, 1e-12);
  EXPECT_EQ(share_difference(a, a), 0.0);
}

}  // namespace
}  // namespace stillheap::plan
