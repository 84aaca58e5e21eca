#include "domain/vessel/design.hpp"

#include <gtest/gtest.h>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

TEST(Ring, HasAsLongAWallAsThePanelItIsMadeOf) {
  Design design;
  design.diameter_m = ring_diameter_m(3.5);
  EXPECT_NEAR(perimeter_m(design), 3.5, 1e-12);
}

TEST(Frame, IsTheDiameterBothWaysOrTheTwoSides) {
  Design design;
  design.diameter_m = 1.2;
  design.length_m = 3.0;
  design.width_m = 0.9;
  EXPECT_EQ(across_m(design), 1.2);
  EXPECT_EQ(deep_m(design), 1.2);
  design.footprint = Footprint::rectangular;
  EXPECT_EQ(across_m(design), 3.0);
  EXPECT_EQ(deep_m(design), 0.9);
}

TEST(RingChannels, StandEvenlyWithTheMiddleOneFirst) {
  const std::vector<Channel> channels = ring_channels({5, 0.3, constant::pi / 2.0}, 0.1, true);
  ASSERT_EQ(channels.size(), 6U);
  EXPECT_EQ(channels[0].centre.x_m, 0.0);
  EXPECT_NEAR(channels[1].centre.x_m, 0.0, 1e-12);
  EXPECT_NEAR(channels[1].centre.y_m, 0.3, 1e-12);
  const double side = distance_m(channels[1].centre, channels[2].centre);
  for (std::size_t i = 1; i < 5; ++i) EXPECT_NEAR(distance_m(channels[i].centre, channels[i + 1].centre), side, 1e-12);
  EXPECT_NEAR(distance_m(channels[5].centre, channels[1].centre), side, 1e-12);
  EXPECT_LT(channels[2].centre.x_m, 0.0) << "anticlockwise";
}

TEST(RingChannels, AreNoneWithoutRingAndMiddle) { EXPECT_TRUE(ring_channels({}, 0.1, false).empty()); }

TEST(Hoop, HoldsPipesInside) { EXPECT_DOUBLE_EQ(ring_radius_inside_hoop_m(0.7, 0.1), 0.3); }

TEST(Volume, LeavesTheChannelsOut) {
  Design design;
  design.footprint = Footprint::rectangular;
  design.length_m = 2.0;
  design.width_m = 1.0;
  design.height_m = 1.5;
  design.fill_height_m = 1.2;
  design.channels = ring_channels({4, 0.3, 0.0}, 0.1, false);
  EXPECT_DOUBLE_EQ(footprint_area_m2(design), 2.0);
  EXPECT_NEAR(material_area_m2(design), 2.0 - constant::pi * 0.01, 1e-12);
  EXPECT_NEAR(material_volume_m3(design), 1.2 * (2.0 - constant::pi * 0.01), 1e-12);
}

}  // namespace
}  // namespace stillheap::vessel
