#include "planning/plan/shopping.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "yard.hpp"

namespace stillheap::plan {
namespace {

Plan small_plan() { return make_plan(test::small_yard(), {}, test::small_engine()); }

const PricedPiece* find(const std::vector<PricedPiece>& lines, const std::string& words) {
  const auto found = std::find_if(lines.begin(), lines.end(), [&](const PricedPiece& line) {
    return line.piece.price_key.empty() ? line.piece.what.find(words) != std::string::npos
                                        : line.piece.price_key == words;
  });
  return found == lines.end() ? nullptr : &*found;
}

TEST(Shopping, PricesByAreaLengthAndVolumeForAllVessels) {
  const Plan plan = small_plan();
  const PricedPiece* mesh = find(plan.shopping, "mesh");
  ASSERT_NE(mesh, nullptr);
  EXPECT_EQ(mesh->count, 2 * mesh->piece.count);
  EXPECT_EQ(mesh->amount_unit, "m2");
  EXPECT_NEAR(mesh->cost, 6.0 * mesh->count * mesh->piece.length_m * mesh->piece.width_m, 1e-9);
  const PricedPiece* line = find(plan.shopping, "line");
  ASSERT_NE(line, nullptr);
  EXPECT_NEAR(line->amount, 2 * 3.8, 1e-9);
  EXPECT_NEAR(line->cost, 0.5 * 2 * 3.8, 1e-9);
  const PricedPiece* water = find(plan.shopping, "water");
  ASSERT_NE(water, nullptr);
  EXPECT_EQ(water->amount_unit, "m3");
  EXPECT_GT(water->amount, 0.0);
  EXPECT_NEAR(water->cost, 2.0 * water->amount, 1e-9);
}

TEST(Shopping, MarksLinesWithoutAPrice) {
  const Plan plan = small_plan();
  const PricedPiece* preventer = find(plan.shopping, "back-flow");
  ASSERT_NE(preventer, nullptr);
  EXPECT_FALSE(preventer->priced);
  EXPECT_EQ(preventer->cost, 0.0);
}

TEST(Shopping, BuysFeedstockForAllVessels) {
  const Plan plan = small_plan();
  ASSERT_EQ(plan.feedstock_shopping.size(), 2U);
  double wet_kg = 0.0;
  int priced = 0;
  for (const PricedPiece& line : plan.feedstock_shopping) {
    wet_kg += line.amount;
    priced += line.priced ? 1 : 0;
    EXPECT_NEAR(line.cost, line.priced ? 0.02 * line.amount : 0.0, 1e-9);
  }
  EXPECT_EQ(priced, 1);
  EXPECT_NEAR(wet_kg, 2.0 * plan.vessels[0].blend_as_delivered.mass_wet_kg, 1e-9);
}

TEST(Shopping, CountsTheWorkOfAYear) {
  const Plan plan = small_plan();
  const double daily_h = 2 * 1.0 * 365.0 / 60.0;
  const fill::FillPlan& fill = plan.vessels[0].fill;
  EXPECT_NEAR(plan.labour_hours, 2 * 6.0 + 2 * fill.soak.time_s / 3600.0 + 2 * fill.people_hours + daily_h, 1e-9);
  EXPECT_NEAR(plan.labour_cost, 18.0 * plan.labour_hours, 1e-6);
}

}  // namespace
}  // namespace stillheap::plan
