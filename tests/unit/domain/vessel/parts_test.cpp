#include "domain/vessel/parts.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

Design vessel(Footprint footprint) {
  Design design;
  design.footprint = footprint;
  design.diameter_m = 1.3;
  design.length_m = 2.0;
  design.width_m = 1.2;
  design.height_m = 1.5;
  design.fill_height_m = 1.4;
  design.base_gap_m = 0.1;
  design.panel_width_m = 1.52;
  design.lining_overlap_m = 0.15;
  design.lining_fold_m = 0.12;
  design.channels = {{{0.0, 0.0}, 0.11}, {{0.3, 0.0}, 0.11}, {{-0.3, 0.0}, 0.08}};
  design.slats = {{{-0.6, 0.2}, {0.6, 0.2}, 0.09}, {{-0.6, -0.2}, {0.6, -0.2}, 0.09}, {{-0.4, 0.5}, {0.4, 0.5}, 0.09}};
  return design;
}

std::vector<Piece> of_key(const std::vector<Piece>& pieces, const std::string& key) {
  std::vector<Piece> found;
  for (const Piece& piece : pieces)
    if (piece.price_key == key) found.push_back(piece);
  return found;
}

TEST(Pieces, OfARoundCageAreOnePanelAsLongAsTheWall) {
  const auto mesh = of_key(pieces_of(vessel(Footprint::round)), "mesh");
  ASSERT_EQ(mesh.size(), 1U);
  EXPECT_EQ(mesh[0].count, 1);
  EXPECT_NEAR(mesh[0].length_m, constant::pi * 1.3, 1e-12);
  EXPECT_EQ(mesh[0].width_m, 1.52);
}

TEST(Pieces, OfARectangularCageAreTwoLongAndTwoShortPanels) {
  const auto mesh = of_key(pieces_of(vessel(Footprint::rectangular)), "mesh");
  ASSERT_EQ(mesh.size(), 2U);
  EXPECT_EQ(mesh[0].count, 2);
  EXPECT_EQ(mesh[0].length_m, 2.0);
  EXPECT_EQ(mesh[1].count, 2);
  EXPECT_EQ(mesh[1].length_m, 1.2);
  Design square = vessel(Footprint::rectangular);
  square.length_m = 1.2;
  EXPECT_EQ(of_key(pieces_of(square), "mesh").at(0).count, 4);
}

TEST(Pieces, TieEveryJointFromEndToEnd) {
  // 1.52 m at 0.15 m at most: eleven spaces, twelve ties.
  EXPECT_EQ(of_key(pieces_of(vessel(Footprint::round)), "tie").at(0).count, 12);
  EXPECT_EQ(of_key(pieces_of(vessel(Footprint::rectangular)), "tie").at(0).count, 48);
}

TEST(Pieces, LineTheWallWithFlapAndFolds) {
  const auto lining = of_key(pieces_of(vessel(Footprint::rectangular)), "lining");
  ASSERT_EQ(lining.size(), 1U);
  EXPECT_NEAR(lining[0].length_m, 6.4 + 0.15, 1e-12);
  EXPECT_NEAR(lining[0].width_m, 1.5 + 0.24, 1e-12);
  const auto cloths = of_key(pieces_of(vessel(Footprint::rectangular)), "base_cloth");
  ASSERT_EQ(cloths.size(), 2U);
  EXPECT_NEAR(cloths[0].length_m, 2.61, 1e-12);
  EXPECT_NEAR(cloths[0].width_m, 1.81, 1e-12);
}

TEST(Pieces, GatherFormsAndSlatsByTheirCut) {
  const auto pieces = pieces_of(vessel(Footprint::round));
  const auto forms = of_key(pieces, "form");
  ASSERT_EQ(forms.size(), 2U);
  EXPECT_EQ(forms[0].count, 2);
  EXPECT_EQ(forms[1].count, 1);
  EXPECT_NEAR(forms[0].length_m, 1.8, 1e-12);
  const auto slats = of_key(pieces, "slat");
  ASSERT_EQ(slats.size(), 3U);
  EXPECT_EQ(slats[0].count, 2);
  EXPECT_NEAR(slats[1].length_m, 0.8, 1e-12);
  EXPECT_EQ(slats[2].count, 4) << "bearers at most 0.6 m apart under 1.3 m";
  EXPECT_EQ(slats[2].width_m, 0.1);
}

TEST(Pieces, OfATightBaseHaveNoSlatsAndAnUnlaidDeckHasNoPrice) {
  Design design = vessel(Footprint::round);
  design.base_open = false;
  EXPECT_TRUE(of_key(pieces_of(design), "slat").empty());
  design = vessel(Footprint::round);
  design.slats.clear();
  EXPECT_EQ(of_key(pieces_of(design), "").size(), 1U);
}

TEST(Pieces, UseOnlyKnownPriceKeys) {
  const std::set<std::string> known{"mesh", "lining", "base_cloth", "form",    "slat",
                                    "tie",  "line",   "spray",      "fitting", ""};
  for (const Footprint footprint : {Footprint::round, Footprint::rectangular}) {
    for (const Piece& piece : pieces_of(vessel(footprint))) {
      EXPECT_TRUE(known.contains(piece.price_key)) << piece.price_key;
      EXPECT_GT(piece.count, 0) << piece.what;
    }
  }
}

}  // namespace
}  // namespace stillheap::vessel
