#include "domain/vessel/clash.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

Design round_vessel(double diameter_m) {
  Design design;
  design.diameter_m = diameter_m;
  return design;
}

Design rectangular_vessel(double length_m, double width_m) {
  Design design;
  design.footprint = Footprint::rectangular;
  design.length_m = length_m;
  design.width_m = width_m;
  return design;
}

TEST(Channels, RefuseOneThatTouchesTheWall) {
  Design design = round_vessel(1.2);
  design.channels = {{{0.562, 0.0}, 0.1}};
  const std::vector<Clash> clashes = find_clashes(design);
  ASSERT_EQ(clashes.size(), 1U);
  EXPECT_EQ(clashes[0].kind, ClashKind::channel_and_wall);
  EXPECT_TRUE(clashes[0].refused);
  EXPECT_NEAR(clashes[0].gap_m, -0.012, 1e-12);
  EXPECT_NEAR(clashes[0].overlap_m, 0.032, 1e-12);
  EXPECT_EQ(describe(clashes[0]), "channel 1 stands 12 mm into the wall");
}

TEST(Channels, RefuseOneTooNearTheWallAndOneBeyondIt) {
  Design design = round_vessel(1.2);
  design.channels = {{{0.0, 0.54}, 0.1}, {{-3.0, 0.0}, 0.1}};
  const std::vector<Clash> clashes = find_clashes(design);
  ASSERT_EQ(clashes.size(), 2U);
  EXPECT_EQ(describe(clashes[0]), "channel 1 leaves 10 mm of material to the wall, wanted is 20 mm");
  EXPECT_EQ(clashes[1].channel, 1U);
  EXPECT_LT(clashes[1].gap_m, -2.0);
}

TEST(Channels, KeepTheGapToStraightWallsToo) {
  Design design = rectangular_vessel(2.0, 1.0);
  design.channels = {{{0.93, 0.0}, 0.1}, {{0.0, -0.44}, 0.1}, {{0.5, 1.4}, 0.1}};
  const std::vector<Clash> clashes = find_clashes(design);
  ASSERT_EQ(clashes.size(), 2U);
  EXPECT_EQ(clashes[0].channel, 1U);
  EXPECT_NEAR(clashes[0].gap_m, 0.01, 1e-12);
  EXPECT_EQ(clashes[1].channel, 2U);
  EXPECT_NEAR(clashes[1].gap_m, -0.95, 1e-12);
}

TEST(Channels, RefuseTwoInOnePlaceOnce) {
  Design design = round_vessel(1.2);
  design.channels = {{{0.0, 0.0}, 0.1}, {{0.09, 0.0}, 0.12}};
  const std::vector<Clash> clashes = find_clashes(design);
  ASSERT_EQ(clashes.size(), 1U);
  EXPECT_EQ(clashes[0].kind, ClashKind::channel_and_channel);
  EXPECT_EQ(describe(clashes[0]), "channel 1 stands 20 mm into channel 2");
}

TEST(Channels, AcceptARingOfTheLargestRadiusAndRefuseOneBeyond) {
  Design design = round_vessel(1.1);
  const double largest = largest_ring_radius_m(1.1, 0.1);
  design.channels = ring_channels({7, largest, 0.3}, 0.1, true);
  EXPECT_TRUE(find_clashes(design).empty());
  design.channels = ring_channels({7, largest + 1e-4, 0.3}, 0.1, true);
  EXPECT_EQ(find_clashes(design).size(), 7U);
  EXPECT_EQ(largest_ring_radius_m(0.1, 0.2), 0.0);
}

TEST(Bearers, WarnWithTheCoveredShareOfTheMouth) {
  Design design = round_vessel(1.2);
  design.channels = {{{0.0, 0.0}, 0.1}};
  design.bearers = {{{-0.6, 0.05}, {0.6, 0.05}, 0.1}, {{-0.6, 0.3}, {0.6, 0.3}, 0.1}};
  const std::vector<Clash> clashes = find_clashes(design);
  ASSERT_EQ(clashes.size(), 1U);
  EXPECT_EQ(clashes[0].kind, ClashKind::channel_and_bearer);
  EXPECT_FALSE(clashes[0].refused);
  EXPECT_NEAR(clashes[0].covered_share, 0.5, 1e-12);
  EXPECT_EQ(describe(clashes[0]), "channel 1 stands over bearer 1, which covers 50 % of its mouth");
  design.base_open = false;
  EXPECT_TRUE(find_clashes(design).empty());
}

TEST(Channels, AreDescribedInTheReadersUnits) {
  Design design = round_vessel(1.2);
  design.channels = {{{0.562, 0.0}, 0.1}};
  EXPECT_EQ(describe(find_clashes(design).front(), [](double) { return std::string("1/2 in"); }),
            "channel 1 stands 1/2 in into the wall");
}

TEST(Slats, CoverTheCircularSegmentOfHandbooks) {
  // Segment of height h: r^2 acos((r-h)/r) - (r-h) sqrt(2 r h - h^2).
  const double r = 0.05;
  const double h = 0.02;
  const double segment = r * r * std::acos((r - h) / r) - (r - h) * std::sqrt(2.0 * r * h - h * h);
  EXPECT_NEAR(covered_area_m2({{0.1, 0.2}, 2.0 * r}, {{-1.0, 0.2 + r - h + 0.05}, {1.0, 0.2 + r - h + 0.05}, 0.1}),
              segment, 1e-15);
}

TEST(Slats, CoverWhatACountOfPointsFinds) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-0.12, 0.12);
  for (int trial = 0; trial < 50; ++trial) {
    const Channel channel{{place(random), place(random)}, 0.1};
    const Slat slat{{place(random), place(random)}, {place(random), place(random)}, 0.07};
    const double length = distance_m(slat.from, slat.to);
    const int n = 400;
    int inside = 0;
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < n; ++j) {
        const double along = (i + 0.5) / n;
        const double across = ((j + 0.5) / n - 0.5) * slat.width_m / length;
        const Point step{slat.to.x_m - slat.from.x_m, slat.to.y_m - slat.from.y_m};
        const Point p{slat.from.x_m + along * step.x_m - across * step.y_m,
                      slat.from.y_m + along * step.y_m + across * step.x_m};
        if (distance_m(p, channel.centre) < 0.05) ++inside;
      }
    }
    EXPECT_NEAR(covered_area_m2(channel, slat), length * slat.width_m * inside / (n * n), 2e-5) << trial;
  }
}

}  // namespace
}  // namespace stillheap::vessel
