#include "domain/vessel/ground.hpp"

#include <gtest/gtest.h>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"

namespace stillheap::vessel {
namespace {

constexpr GroundChoices choices{0.02, 5e6};

Design bin(Footprint footprint) {
  Design design;
  design.footprint = footprint;
  design.diameter_m = 1.2;
  design.length_m = 2.4;
  design.width_m = 1.2;
  design.fill_height_m = 1.2;
  design.base_gap_m = 0.1;
  return design;
}

TEST(Ground, CarriesMoreUnderABearerThanSpreadOut) {
  const Design design = with_base(bin(Footprint::rectangular), {.width_m = 0.05});
  const Ground ground = ground_of(design, 28800.0, choices);  // 10 kPa
  EXPECT_EQ(ground.bearers, 5);
  // Five flush bearers of 50 mm under 2.4 m: 2.35 / 4 between middles, to the grid of 5 mm.
  EXPECT_NEAR(ground.bearer_spacing_m, 0.5875, 0.0051);
  EXPECT_NEAR(ground.bearer_pressure_pa, 10e3 * 0.5875 / 0.05, 10e3 * 0.0051 / 0.05);
}

TEST(Ground, HasNoBearersUnderAClosedBase) {
  Design design = bin(Footprint::round);
  design.base_open = false;
  const Ground ground = ground_of(design, 1000.0, choices);
  EXPECT_EQ(ground.bearers, 0);
  EXPECT_EQ(ground.bearer_pressure_pa, 0.0);
}

TEST(Ground, BearersCrossTheSlats) {
  Design design = bin(Footprint::rectangular);
  design.slats = {{{0.0, -0.6}, {0.0, 0.6}, 0.1}};
  EXPECT_EQ(ground_of(with_base(design, {}), 1000.0, choices).bearers, 3) << "slats across: bearers divide the width";
}

TEST(Lean, LiftsTheEdgeAtTheKernAndGoesOverAtTheRim) {
  const Ground ground = ground_of(bin(Footprint::round), 1000.0, choices);
  EXPECT_NEAR(ground.middle_height_m, 0.7, 1e-12);
  EXPECT_NEAR(ground.tilt_edge, 0.15 / 0.7, 1e-12);
  EXPECT_NEAR(ground.tilt_over, 0.6 / 0.7, 1e-12);
  EXPECT_NEAR(edge_over_mean(bin(Footprint::round), kern_m(bin(Footprint::round))), 2.0, 1e-12);
}

TEST(Lean, OfABoxIsJudgedAcrossItsNarrowSide) {
  Design turned = bin(Footprint::rectangular);
  std::swap(turned.length_m, turned.width_m);
  EXPECT_DOUBLE_EQ(kern_m(turned), 0.2);
  EXPECT_DOUBLE_EQ(kern_m(bin(Footprint::rectangular)), 0.2);
}

TEST(Settling, IsLeftOutWhenTheGroundIsNotKnown) {
  GroundChoices unknown = choices;
  unknown.stiffness_pa = 0.0;
  EXPECT_EQ(ground_of(bin(Footprint::round), 1000.0, unknown).settling_m, 0.0);
  EXPECT_GT(ground_of(bin(Footprint::round), 1000.0, choices).settling_m, 0.0);
}

}  // namespace
}  // namespace stillheap::vessel
