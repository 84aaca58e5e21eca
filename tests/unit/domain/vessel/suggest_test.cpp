#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"
#include "domain/vessel/air_path.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/pattern.hpp"

namespace stillheap::vessel {
namespace {

Design round_vessel(double diameter_m, double height_m) {
  Design design;
  design.diameter_m = diameter_m;
  design.height_m = design.fill_height_m = height_m;
  return design;
}

Design rectangular_vessel(double length_m, double width_m, double height_m) {
  Design design;
  design.footprint = Footprint::rectangular;
  design.length_m = length_m;
  design.width_m = width_m;
  design.height_m = design.fill_height_m = height_m;
  return design;
}

void expect_holds(Design design, const Suggestion& suggestion, double limit_m) {
  design.channels = suggestion.channels;
  EXPECT_LE(longest_air_path(design).length_m, limit_m);
  EXPECT_DOUBLE_EQ(longest_air_path(design).plan_length_m, suggestion.path.plan_length_m);
  for (const Clash& clash : find_clashes(design)) EXPECT_FALSE(clash.refused) << describe(clash);
}

TEST(Suggestion, NeedsNoChannelInALowOrNarrowVessel) {
  EXPECT_TRUE(suggest_channels(round_vessel(2.0, 0.6), 0.3, 0.1)->channels.empty());
  EXPECT_TRUE(suggest_channels(round_vessel(0.6, 2.0), 0.3, 0.1)->channels.empty());
  EXPECT_EQ(suggest_channels(round_vessel(0.6, 2.0), 0.3, 0.1)->words, "no channel");
}

TEST(Suggestion, PutsOneInTheMiddleAsLongAsThatDoes) {
  // Between a middle channel and an open wall the way is (R - r) / 2.
  const auto one = suggest_channels(round_vessel(1.3, 2.0), 0.3001, 0.1);
  ASSERT_TRUE(one);
  EXPECT_EQ(one->words, "one in the middle");
  EXPECT_NEAR(one->path.plan_length_m, 0.3, 1e-12);
  const auto more = suggest_channels(round_vessel(1.3, 2.0), 0.2999, 0.1);
  ASSERT_TRUE(more);
  EXPECT_GT(more->channels.size(), 1U);
}

TEST(Suggestion, HoldsItsLimitInRoundVessels) {
  for (const double diameter : {1.0, 1.5, 2.0, 2.4}) {
    for (const Wall wall : {Wall::open, Wall::closed}) {
      Design design = round_vessel(diameter, 1.5);
      design.wall = wall;
      const auto suggestion = suggest_channels(design, 0.3, 0.1);
      ASSERT_TRUE(suggestion) << diameter;
      expect_holds(design, *suggestion, 0.3);
    }
  }
}

TEST(Suggestion, HoldsItsLimitInRectangularVessels) {
  for (const double length : {1.0, 2.0, 3.0}) {
    for (const Wall wall : {Wall::open, Wall::closed}) {
      Design design = rectangular_vessel(length, 1.2, 1.5);
      design.wall = wall;
      const auto suggestion = suggest_channels(design, 0.3, 0.1);
      ASSERT_TRUE(suggestion) << length;
      expect_holds(design, *suggestion, 0.3);
    }
  }
}

TEST(Suggestion, FindsNoRingOfFewerChannelsByTryingEveryRadius) {
  Design design = round_vessel(2.0, 1.5);
  const auto suggestion = suggest_channels(design, 0.3, 0.1);
  ASSERT_TRUE(suggestion);
  const int fewer = static_cast<int>(suggestion->channels.size()) - 1;
  for (const bool centre : {false, true}) {
    for (int i = 0; i < 415; ++i) {
      const double radius = 0.1 + 0.002 * i;
      design.channels = ring_channels({fewer - (centre ? 1 : 0), radius, 0.0}, 0.1, centre);
      EXPECT_GT(longest_air_path(design).plan_length_m, 0.3) << radius;
    }
  }
}

TEST(Suggestion, FindsNoGridOfFewerChannelsByTryingManySpacings) {
  Design design = rectangular_vessel(2.0, 1.2, 1.5);
  const auto suggestion = suggest_channels(design, 0.3, 0.1);
  ASSERT_TRUE(suggestion);
  const int fewer = static_cast<int>(suggestion->channels.size()) - 1;
  for (const Pattern& pattern : rectangular_patterns(fewer)) {
    for (int i = 0; i < 47; ++i) {
      for (int j = 0; j < 27; ++j) {
        design.channels = lay_out(pattern, 0.02 * i, 0.02 * j, 0.1).channels;
        EXPECT_GT(longest_air_path(design).plan_length_m, 0.3) << words_of(pattern);
      }
    }
  }
}

TEST(Suggestion, IsNothingWhenTooFewAreAllowed) {
  EXPECT_FALSE(suggest_channels(round_vessel(3.0, 2.0), 0.2, 0.1, 5));
  EXPECT_FALSE(suggest_channels(round_vessel(3.0, 2.0), 0.05, 0.1));
}

TEST(Suggestion, RefusesALimitOrAWidthOfNothing) {
  EXPECT_THROW((void)suggest_channels(round_vessel(1.0, 1.0), 0.0, 0.1), InputError);
  EXPECT_THROW((void)suggest_channels(round_vessel(1.0, 1.0), 0.3, -0.1), InputError);
}

TEST(Patterns, HoldTheirCount) {
  for (int count = 1; count <= 14; ++count) {
    for (const Pattern& pattern : round_patterns(count))
      EXPECT_EQ(lay_out(pattern, 0.2, 0.4, 0.1).channels.size(), static_cast<std::size_t>(count)) << words_of(pattern);
    for (const Pattern& pattern : rectangular_patterns(count))
      EXPECT_EQ(lay_out(pattern, 0.2, 0.4, 0.1).channels.size(), static_cast<std::size_t>(count)) << words_of(pattern);
  }
}

TEST(Patterns, ReachAsFarAsTheyAreTold) {
  for (const Pattern& pattern : rectangular_patterns(11)) {
    double far_x = 0.0;
    double far_y = 0.0;
    for (const Channel& channel : lay_out(pattern, 0.7, 0.4, 0.1).channels) {
      far_x = std::max(far_x, channel.centre.x_m);
      far_y = std::max(far_y, channel.centre.y_m);
    }
    EXPECT_TRUE(far_x == 0.0 || std::abs(far_x - 0.7) < 1e-12) << words_of(pattern);
    EXPECT_TRUE(far_y == 0.0 || std::abs(far_y - 0.4) < 1e-12) << words_of(pattern);
  }
}

TEST(Patterns, AreSaidInPlainWords) {
  Pattern rings;
  rings.centre = true;
  rings.rings = {5};
  EXPECT_EQ(words_of(rings), "five on one ring and one in the middle");
  rings.rings = {3, 8};
  EXPECT_EQ(words_of(rings), "three on an inner ring, eight on an outer ring and one in the middle");
  Pattern rows;
  rows.rows = {4, 3, 4};
  EXPECT_EQ(words_of(rows), "three staggered rows of four, three and four along the length");
  rows.rows = {3, 3};
  rows.rows_along_y = true;
  EXPECT_EQ(words_of(rows), "two rows of three along the width");
}

}  // namespace
}  // namespace stillheap::vessel
