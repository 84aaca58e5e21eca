#include "domain/vessel/setting_out.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"
#include "domain/vessel/loads.hpp"

namespace stillheap::vessel {
namespace {

Design ring() {
  Design design;
  design.diameter_m = 1.2;
  design.height_m = design.fill_height_m = 1.5;
  design.base_gap_m = 0.1;
  design.lining_overlap_m = 0.15;
  design.lining_fold_m = 0.1;
  design.channels = ring_channels({5, 0.3, 0.2}, 0.1, true);
  return design;
}

Design bin(double length_m, double width_m) {
  Design design;
  design.footprint = Footprint::rectangular;
  design.length_m = length_m;
  design.width_m = width_m;
  design.height_m = design.fill_height_m = 1.2;
  design.base_gap_m = 0.1;
  design.channels = {{{0.5, 0.1}, 0.1}};
  return design;
}

TEST(SettingOut, GivesTheChordBetweenNeighboursOfARing) {
  const Design design = ring();
  EXPECT_NEAR(chord_m(0.3, 2.0 * constant::pi / 5.0), distance_m(design.channels[1].centre, design.channels[2].centre),
              1e-12);
}

TEST(SettingOut, HoopAndRingAreInverse) {
  EXPECT_NEAR(ring_radius_inside_hoop_m(hoop_inside_m(0.3, 0.1), 0.1), 0.3, 1e-15);
}

TEST(SettingOut, FrameOfTheChannelsHoldsTheMiddleAndEveryHole) {
  const Frame frame = channels_frame(bin(2.4, 1.2), 0.02);
  EXPECT_NEAR(frame.left_m, -0.02, 1e-12);
  EXPECT_NEAR(frame.right_m, 0.57, 1e-12);
  EXPECT_NEAR(frame.low_m, -0.02, 1e-12);
  EXPECT_NEAR(frame.high_m, 0.17, 1e-12);
}

TEST(SettingOut, DevelopmentAgreesWithTheCutList) {
  for (const Design& design : {ring(), bin(2.4, 1.2), bin(1.2, 2.4), bin(1.1, 1.1)}) {
    const Development flat = development_of(design);
    int panels = 0;
    for (const Piece& piece : pieces_of(design)) {
      if (piece.price_key == "mesh") {
        const auto same = [&](const FlatPanel& panel) {
          return panel.count == piece.count && std::abs(panel.length_m - piece.length_m) < 1e-12 &&
                 std::abs(panel.height_m - piece.width_m) < 1e-12;
        };
        EXPECT_TRUE(std::any_of(flat.panels.begin(), flat.panels.end(), same)) << piece.length_m;
        ++panels;
      }
      if (piece.price_key == "tie") {
        EXPECT_EQ(piece.count, flat.joints * static_cast<int>(flat.tie_heights_m.size()));
      }
      if (piece.use == "lining") {
        EXPECT_NEAR(piece.length_m, flat.lining_length_m, 1e-12);
        EXPECT_NEAR(piece.width_m, flat.lining_height_m, 1e-12);
      }
    }
    EXPECT_EQ(panels, static_cast<int>(flat.panels.size()));
    EXPECT_EQ(flat.tie_heights_m.front(), 0.0);
    EXPECT_NEAR(flat.tie_heights_m.back(), flat.panels.front().height_m, 1e-12);
  }
}

TEST(SettingOut, TiesSitOnTheWiresOfTheMesh) {
  Design design = ring();
  design.height_m = 60.0 * 0.0254;
  design.mesh = WireMesh{0.0034, 2.0 * 0.0254, 1.2e8};
  const std::vector<double> ties = tie_heights_m(design);
  for (const double height : ties) {
    const double wires = height / design.mesh->spacing_m;
    EXPECT_NEAR(wires, std::round(wires), 1e-9) << height;
  }
  EXPECT_NEAR(ties.back(), design.height_m, 1e-9);
  EXPECT_NEAR(tie_pitch_m(design), 4.0 * 0.0254, 1e-9) << "every second wire: three would pass 150 mm";
  EXPECT_NEAR(loads_of(design, 500.0).tie_force_n, loads_of(design, 500.0).hoop_tension_n_m * tie_pitch_m(design),
              1e-9);
}

TEST(SettingOut, BearersAreAsManyAsTheCutListHasAndCrossTheSlats) {
  Design design = bin(2.4, 1.2);
  design.slats = {{{0.0, -0.6}, {0.0, 0.6}, 0.07}};
  design = with_base(design, {});
  const std::vector<Slat>& bearers = design.bearers;
  for (const Piece& piece : pieces_of(design)) {
    if (piece.use != "under the base") continue;
    EXPECT_EQ(piece.count, static_cast<int>(bearers.size()));
    EXPECT_NEAR(piece.length_m, distance_m(bearers.front().from, bearers.front().to), 1e-12);
  }
  EXPECT_NEAR(bearers.front().from.y_m, bearers.front().to.y_m, 1e-12) << "slats run along y, bearers along x";
  design.base_gap_m = 0.0;
  EXPECT_TRUE(with_base(design, {}).bearers.empty());
}

TEST(SettingOut, WalksTheLineOnceRoundInsideTheWall) {
  const LinePlace quarter = line_place(ring(), 0.1, 0.25);
  EXPECT_NEAR(quarter.at.x_m, 0.5, 1e-12);
  EXPECT_NEAR(quarter.at.y_m, 0.0, 1e-12);
  EXPECT_NEAR(quarter.along_m, 0.25 * constant::pi, 1e-12);
  const Design crate = bin(2.4, 1.2);
  Point before = line_place(crate, 0.1, 0.0).at;
  double walked = 0.0;
  for (int i = 1; i <= 3200; ++i) {
    const Point here = line_place(crate, 0.1, i / 3200.0).at;
    EXPECT_LT(std::max(std::abs(here.x_m) - 1.1, std::abs(here.y_m) - 0.5), 1e-9);
    walked += distance_m(before, here);
    before = here;
  }
  EXPECT_NEAR(walked, 2.0 * (2.2 + 1.0), 0.01) << "corners are cut by steps of 2 mm";
}

}  // namespace
}  // namespace stillheap::vessel
