#include "domain/vessel/parts.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"

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
  EXPECT_EQ(mesh[0].width_m, 1.5) << "up to the brim, whatever the mesh it is cut from";
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
  // 1.5 m at 0.15 m at most: ten spaces, eleven ties.
  EXPECT_EQ(of_key(pieces_of(vessel(Footprint::round)), "tie").at(0).count, 11);
  EXPECT_EQ(of_key(pieces_of(vessel(Footprint::rectangular)), "tie").at(0).count, 44);
}

TEST(Pieces, OfABoardedBinAreBoardsAndPostsWithoutMeshTiesOrLining) {
  Design bin = vessel(Footprint::rectangular);
  bin.wall = Wall::closed;
  const auto pieces = pieces_of(bin);
  for (const char* const key : {"mesh", "tie"}) EXPECT_TRUE(of_key(pieces, key).empty()) << key;
  EXPECT_EQ(of_key(pieces, "lining").size(), 1U) << "the cover on top alone";
  const auto boards = of_key(pieces, "board");
  ASSERT_EQ(boards.size(), 3U);
  EXPECT_EQ(boards[0].count, 2 * 10) << "1.5 m of boards of 150 mm on two long sides";
  EXPECT_EQ(boards[0].length_m, 2.0);
  EXPECT_EQ(boards[1].count, 2 * 10);
  EXPECT_EQ(boards[2].count, 2 * 3 + 2 * 2) << "posts round 2.0 by 1.2 m, at most 0.8 m apart";
}

TEST(Pieces, LineTheWallWithFlapAndFolds) {
  const auto lining = of_key(pieces_of(vessel(Footprint::rectangular)), "lining");
  ASSERT_EQ(lining.size(), 2U) << "the cover on top has the lining's price";
  EXPECT_NEAR(lining[0].length_m, 6.4 + 0.15, 1e-12);
  EXPECT_NEAR(lining[0].width_m, 1.5 + 0.24, 1e-12);
  EXPECT_EQ(lining[1].use, "cover on top");
  const auto cloths = of_key(pieces_of(vessel(Footprint::rectangular)), "base_cloth");
  ASSERT_EQ(cloths.size(), 1U);
  EXPECT_EQ(lining[1].length_m, cloths[0].length_m);
  EXPECT_NEAR(cloths[0].length_m, 2.61, 1e-12);
  EXPECT_NEAR(cloths[0].width_m, 1.81, 1e-12);
}

TEST(Pieces, GatherFormsAndSlatsByTheirCut) {
  const Design design = with_base(vessel(Footprint::round), {});
  const auto pieces = pieces_of(design);
  const auto forms = of_key(pieces, "form");
  ASSERT_EQ(forms.size(), 2U);
  EXPECT_EQ(forms[0].count, 2);
  EXPECT_EQ(forms[1].count, 1);
  EXPECT_NEAR(forms[0].length_m, 1.8 + deck_thickness_m, 1e-12);
  const auto slats = of_key(pieces, "slat");
  ASSERT_GE(slats.size(), 3U);
  EXPECT_EQ(slats[0].count, 2);
  EXPECT_NEAR(slats[1].length_m, 0.8, 1e-12);
  int bearers = 0;
  for (std::size_t i = 2; i < slats.size(); ++i) {
    bearers += slats[i].count;
    EXPECT_EQ(slats[i].width_m, 0.1) << "on edge, as wide as the gap";
  }
  EXPECT_EQ(bearers, static_cast<int>(design.bearers.size()));
  int stops = 0;
  for (const Piece& piece : pieces) stops += piece.use == "stop of a form" ? piece.count : 0;
  EXPECT_EQ(stops, 3);
}

TEST(Pieces, OfATightBaseHaveNoSlatsAndAnUnlaidDeckHasNoPrice) {
  Design design = vessel(Footprint::round);
  design.base_open = false;
  EXPECT_TRUE(of_key(pieces_of(design), "slat").empty());
  design = vessel(Footprint::round);
  design.slats.clear();
  EXPECT_EQ(of_key(pieces_of(design), "").size(), 3U) << "the deck and two sizes of stops";
}

TEST(Pieces, UseOnlyKnownPriceKeys) {
  const std::set<std::string> known{"mesh",  "lining", "base_cloth", "form",  "slat",    "board",
                                    "board", "tie",    "line",       "spray", "fitting", ""};
  for (const Footprint footprint : {Footprint::round, Footprint::rectangular}) {
    for (const Piece& piece : pieces_of(vessel(footprint))) {
      EXPECT_TRUE(known.contains(piece.price_key)) << piece.price_key;
      EXPECT_GT(piece.count, 0) << piece.what;
    }
  }
}

}  // namespace
}  // namespace stillheap::vessel
