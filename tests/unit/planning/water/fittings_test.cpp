#include "planning/water/fittings.hpp"

#include <gtest/gtest.h>

#include "core/base/constants.hpp"

namespace stillheap::water {
namespace {

Line short_line(bool ring) {
  Line line;
  line.inside_diameter_m = 0.0135;
  line.length_m = 4.0;
  line.hole_diameter_m = 0.0008;
  line.spacing_m = 0.1;
  line.ring = ring;
  return line;
}

TEST(Filter, IsFinerForSmallerHoles) {
  EXPECT_EQ(screen_for(0.0008).mesh, 170) << "0.8 mm / 8 is 0.1 mm: 140 mesh has 0.106 mm";
  EXPECT_EQ(screen_for(0.001).mesh, 120);
  EXPECT_EQ(screen_for(0.00001).mesh, 270) << "finest of the table";
}

TEST(Line, TellsWayAndFlowOfEveryHole) {
  const LineFlow flow = solve_line(short_line(false), {1.5e5, 0.0, 0.0});
  ASSERT_EQ(flow.hole_distance_m.size(), 40U);
  EXPECT_NEAR(flow.hole_distance_m.front(), 0.1, 1e-12);
  EXPECT_NEAR(flow.hole_distance_m.back(), 4.0, 1e-12);
  EXPECT_NEAR(flow.pipe_flow_m3_s.front(), flow.total_flow_m3_s, 1e-15);
  EXPECT_NEAR(flow.pipe_flow_m3_s.back(), flow.hole_flow_m3_s.back(), 1e-15);
  for (std::size_t i = 0; i + 1 < 40; ++i) {
    EXPECT_NEAR(flow.pipe_flow_m3_s[i] - flow.pipe_flow_m3_s[i + 1], flow.hole_flow_m3_s[i], 1e-15);
  }
}

TEST(Line, OfARingIsFedFromBothSides) {
  const LineFlow flow = solve_line(short_line(true), {1.5e5, 0.0, 0.0});
  EXPECT_NEAR(2.0 * flow.pipe_flow_m3_s.front(), flow.total_flow_m3_s, 1e-15);
  EXPECT_NEAR(flow.pipe_flow_m3_s.front(), flow.pipe_flow_m3_s.back(), 1e-15);
  EXPECT_NEAR(flow.hole_distance_m.front(), 4.0 - flow.hole_distance_m.back(), 1e-12);
}

TEST(Line, LosesByRuleAboutWhatItLosesHoleByHole) {
  const Line line = short_line(false);
  const LineFlow flow = solve_line(line, {1.5e5, 0.0, 0.0});
  const double lost = flow.inlet_pressure_pa - flow.hole_pressure_pa.back();
  EXPECT_NEAR(ruled_loss_pa(line, flow) / lost, 1.0, 0.25) << "two laws of friction, small bore";
}

TEST(Line, HoldsWhatItsBoreHolds) {
  EXPECT_NEAR(held_water_m3(short_line(false)), constant::pi / 4.0 * 0.0135 * 0.0135 * 4.0, 1e-15);
}

TEST(Variation, IsNothingForAlikeHoles) {
  LineFlow flow;
  flow.hole_flow_m3_s = {2.0, 2.0};
  EXPECT_EQ(flow_variation(flow), 0.0);
  flow.hole_flow_m3_s = {2.0, 1.5};
  EXPECT_DOUBLE_EQ(flow_variation(flow), 0.25);
}

}  // namespace
}  // namespace stillheap::water
