#include "planning/plan/cutting.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "yard.hpp"

namespace stillheap::plan {
namespace {

site::Site yard_with_stock() {
  site::Site site = test::small_yard();
  site.stock = {{"mesh", 4.0, 1.5, 40.0, {}, 0.0, false, false},
                {"cloth", 20.0, 1.9, 60.0, {}, 0.0, false, false},
                {"form", 4.0, 0.1, 20.0, {}, 0.003, false, false},
                {"mesh", 3.0, 1.2, 25.0, {}, 0.0, false, true},
                {"mesh", 5.0, 1.6, 55.0, {}, 0.0, false, true}};
  return site;
}

Plan plan_for(const site::Site& site) { return make_plan(site, {}, test::small_engine()); }

const MaterialCuts* find(const Plan& plan, const std::string& key) {
  const auto found = std::find_if(plan.cutting.begin(), plan.cutting.end(),
                                  [&](const MaterialCuts& material) { return material.job.key == key; });
  return found == plan.cutting.end() ? nullptr : &*found;
}

TEST(Cutting, TakesTheFormsOfAllVesselsFromSharedPipes) {
  const Plan plan = plan_for(yard_with_stock());
  const MaterialCuts* forms = find(plan, "form");
  ASSERT_NE(forms, nullptr);
  ASSERT_EQ(forms->job.parts.size(), 1U);
  EXPECT_EQ(forms->job.parts[0].count, 6) << "two vessels of six, filled on two days with the same forms";
  EXPECT_EQ(forms->cuts.pieces.size(), 3U) << "two of 1.722 m from each 4 m";
  EXPECT_NEAR(forms->cuts.cost, 60.0, 1e-9);
  EXPECT_EQ(forms->cuts.gap_share, 0.0);
  EXPECT_NEAR(forms->cuts.waste_share, 1.0 - 6 * 1.722 / 12.0, 1e-9);
}

TEST(Cutting, PutsStockInPlaceOfItsPiecesOnTheShoppingList) {
  const Plan plan = plan_for(yard_with_stock());
  double stock_cost = 0.0;
  for (const PricedPiece& line : plan.shopping) {
    if (line.stock) stock_cost += line.cost;
    EXPECT_TRUE(line.stock || (line.piece.price_key != "form" && line.piece.price_key != "lining")) << line.piece.what;
  }
  double cut_cost = 0.0;
  for (const MaterialCuts& material : plan.cutting) cut_cost += material.cuts.cost;
  EXPECT_NEAR(stock_cost, cut_cost, 1e-9);
  EXPECT_GT(cut_cost, 0.0);
}

TEST(Cutting, WeighsOtherMeshAndSaysWhatTheVesselBecomes) {
  const Plan plan = plan_for(yard_with_stock());
  const MaterialCuts* mesh = find(plan, "mesh");
  ASSERT_NE(mesh, nullptr);
  ASSERT_EQ(mesh->others.size(), 2U);
  EXPECT_FALSE(mesh->others[0].cuts.done()) << "1.2 m is lower than the drawn 1.5 m";
  EXPECT_NEAR(mesh->others[0].diameter_m, 3.0 / constant::pi, 1e-12);
  EXPECT_NEAR(mesh->others[0].height_m, 1.2, 1e-12);
  EXPECT_TRUE(mesh->others[1].cuts.done());
  EXPECT_NEAR(mesh->others[1].cuts.cost, 110.0, 1e-9);
  EXPECT_GT(mesh->others[1].volume_m3, mesh->others[0].volume_m3);
}

TEST(Cutting, CutsBaseCoverAndLiningFromOneRoll) {
  const Plan plan = plan_for(yard_with_stock());
  const MaterialCuts* cloth = find(plan, "cloth");
  ASSERT_NE(cloth, nullptr);
  int pieces = 0;
  for (const cut::Part& part : cloth->job.parts) pieces += part.count;
  EXPECT_EQ(pieces, 6) << "lining, base and cover of two vessels";
  EXPECT_TRUE(cloth->cuts.done());
}

TEST(Cutting, JoinsARingFromEqualPanelsWhenNoneIsLongEnough) {
  site::Site site = yard_with_stock();
  site.stock[0].length_m = 2.0;
  const Plan plan = plan_for(site);
  const MaterialCuts* mesh = find(plan, "mesh");
  ASSERT_NE(mesh, nullptr);
  EXPECT_EQ(mesh->cuts.parts[0].count, 4);
  EXPECT_NEAR(mesh->cuts.parts[0].length_m, constant::pi * 1.2 / 2.0, 1e-9);
  EXPECT_NE(mesh->cuts.note.find("joined from 2"), std::string::npos);
}

TEST(Cutting, SaysWhyNothingCouldBeCutAndKeepsThePiecesOnTheList) {
  site::Site site = yard_with_stock();
  site.stock[2].at_hand = 2;
  site.stock[2].price.reset();
  const Plan plan = plan_for(site);
  const MaterialCuts* forms = find(plan, "form");
  ASSERT_NE(forms, nullptr);
  EXPECT_FALSE(forms->cuts.done());
  EXPECT_NE(forms->cuts.note.find("does not suffice"), std::string::npos);
  EXPECT_TRUE(std::any_of(plan.shopping.begin(), plan.shopping.end(),
                          [](const PricedPiece& line) { return line.piece.price_key == "form" && !line.stock; }));
}

TEST(Cutting, IsLeftOutWithoutStock) { EXPECT_TRUE(plan_for(test::small_yard()).cutting.empty()); }

TEST(Cutting, PaysARollByTheLengthTakenOffIt) {
  site::Site site = yard_with_stock();
  site.stock[1].by_length = true;
  const Plan plan = plan_for(site);
  const MaterialCuts* cloth = find(plan, "cloth");
  ASSERT_NE(cloth, nullptr);
  double used_m = 0.0;
  for (const cut::StockPiece& piece : cloth->cuts.pieces) used_m += piece.used_m;
  EXPECT_NEAR(cloth->cuts.cost, 60.0 * used_m / 20.0, 1e-9);
}

}  // namespace
}  // namespace stillheap::plan
