#include "planning/plan/shopping.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "domain/vessel/base.hpp"
#include "planning/plan/hours.hpp"
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
  const VesselHours one = hours_of(plan.site, plan.vessels[0]);
  // The pace of filling holds the soaking; only the waiting for the bath comes on top.
  EXPECT_NEAR(one.soaking, fill.clock_s / 3600.0 - fill.hours, 1e-9);
  const double short_jobs_h = one.forms_out + one.covering + one.worms + one.harvest;
  EXPECT_GT(short_jobs_h, 0.0);
  EXPECT_NEAR(plan.labour_hours, 2 * (6.0 + fill.people_hours + one.soaking + short_jobs_h) + daily_h, 1e-9);
  EXPECT_NEAR(plan.labour_cost, 18.0 * plan.labour_hours, 1e-6);
}

TEST(Shopping, BuysFormsForOneFillingDayOnly) {
  Plan plan = small_plan();
  VesselPlan& vessel = plan.vessels[0];
  vessel.design.count = 6;
  vessel.fill.clock_s = 3.5 * 3600.0;  // two a day
  const auto forms = [&] {
    int count = 0;
    for (const PricedPiece& line : vessel_shopping(plan)) count += line.piece.price_key == "form" ? line.count : 0;
    return count;
  };
  const int a_vessel = static_cast<int>(vessel.design.channels.size());
  EXPECT_EQ(forms(), 2 * a_vessel);
  vessel.fill.clock_s = 11.0 * 3600.0;
  EXPECT_EQ(forms(), a_vessel);
}

TEST(Shopping, TakesAPriceOfZeroForAPrice) {
  site::Site site = test::small_yard();
  for (material::Offer& offer : site.offers) {
    offer.price_per_kg = 0.0;
    offer.price_given = true;
  }
  site.prices["mesh"] = 0.0;
  const Plan plan = make_plan(site, {}, test::small_engine());
  EXPECT_EQ(sum_of(plan.feedstock_shopping).words(), "all lines priced");
  EXPECT_TRUE(find(plan.shopping, "mesh")->priced);
}

TEST(Shopping, SaysHowManyLinesATotalHolds) {
  const Plan plan = small_plan();
  const PricedSum sum = material_sum(plan);
  EXPECT_LT(sum.priced, sum.lines);
  EXPECT_EQ(sum.lines, static_cast<int>(plan.shopping.size() + plan.feedstock_shopping.size()));
  EXPECT_EQ(sum.words(), "priced lines only: " + std::to_string(sum.priced) + " of " + std::to_string(sum.lines));
  EXPECT_NEAR(sum.cost, plan.material_cost, 1e-9);
}

TEST(Shopping, ListsWhatBuildingAndFillingTake) {
  site::Site site = test::small_yard();
  vessel::Design& design = site.vessels[0];
  for (const double at : {-0.4, -0.2, 0.0, 0.2, 0.4}) {
    design.slats.push_back(vessel::strip_across(design, true, at, 0.09));
  }
  const Plan plan = make_plan(site, {}, test::small_engine());
  for (const char* const words :
       {"filter", "regulator", "back-flow", "drain cock", "timer", "hoop", "cord", "bath", "pail", "step",
        "hole cutter", "dust mask", "gloves", "thermometer", "worms", "screw", "staple"}) {
    EXPECT_TRUE(std::any_of(plan.shopping.begin(), plan.shopping.end(), [&](const PricedPiece& line) {
      return line.piece.what.find(words) != std::string::npos;
    })) << words;
  }
}

TEST(Shopping, TellsThatStockNamedForTheMeshIsTooNarrow) {
  site::Site site = test::small_yard();
  cut::Stock narrow;
  narrow.use = "mesh";
  narrow.length_m = 25.0;
  narrow.width_m = 0.5;
  site.stock.push_back(narrow);
  const Plan plan = make_plan(site, {}, test::small_engine());
  EXPECT_TRUE(std::any_of(plan.warnings.begin(), plan.warnings.end(),
                          [](const Warning& warning) { return warning.where == "stock: welded wire mesh"; }));
}

}  // namespace
}  // namespace stillheap::plan
