#include "planning/water/line.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"

namespace stillheap::water {
namespace {

Line small_line() {
  Line line;
  line.inside_diameter_m = 0.0135;
  line.length_m = 3.8;
  line.hole_diameter_m = 0.8e-3;
  line.spacing_m = 0.1;
  return line;
}

Supply mains() { return {1.5e5, 0.0, 0.0}; }

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

TEST(HoleCount, CountsAFullSpacingEach) {
  EXPECT_EQ(hole_count(3.8, 0.1), 38);
  EXPECT_EQ(hole_count(3.79, 0.1), 37);
  EXPECT_EQ(hole_count(0.05, 0.1), 0);
}

TEST(FrictionFactor, IsContinuousWhereLawsMeet) {
  for (const double reynolds : {2300.0, 4000.0}) {
    EXPECT_NEAR(darcy_friction_factor(reynolds * (1 - 1e-9), 1e-4), darcy_friction_factor(reynolds * (1 + 1e-9), 1e-4),
                1e-9);
  }
  EXPECT_DOUBLE_EQ(darcy_friction_factor(1000.0, 0.01), 0.064);
  EXPECT_EQ(darcy_friction_factor(0.0, 0.01), 0.0);
}

TEST(FrictionFactor, SolvesColebrook) {
  for (const double reynolds : {4001.0, 3e4, 1e8}) {
    for (const double rough : {0.0, 1e-4, 0.05}) {
      const double x = 1.0 / std::sqrt(darcy_friction_factor(reynolds, rough));
      EXPECT_NEAR(x, -2.0 * std::log10(rough / 3.7 + 2.51 * x / reynolds), 1e-10);
    }
  }
}

TEST(FrictionLoss, RisesWithFlowThroughTheTransition) {
  double last = 0.0;
  for (int step = 1; step < 200; ++step) {
    const double loss = friction_loss_pa(step * 5e-7, 0.0135, 1.0, 1.5e-6);
    EXPECT_GT(loss, last) << step;
    last = loss;
  }
}

TEST(SolveLine, MatchesTheInletPressureAndItsOwnSum) {
  const LineFlow flow = solve_line(small_line(), mains());
  EXPECT_EQ(flow.holes, 38);
  EXPECT_EQ(flow.hole_flow_m3_s.size(), 38U);
  EXPECT_NEAR(flow.inlet_pressure_pa, 1.5e5, 1e-3);
  EXPECT_NEAR(flow.total_flow_m3_s, sum(flow.hole_flow_m3_s), 1e-15);
  EXPECT_FALSE(flow.supply_limits);
}

TEST(SolveLine, LosesPressureStretchByStretch) {
  const Line line = small_line();
  const LineFlow flow = solve_line(line, mains());
  double passing = flow.total_flow_m3_s;
  double pressure = flow.inlet_pressure_pa;
  for (std::size_t hole = 0; hole < 38; ++hole) {
    pressure -= friction_loss_pa(passing, line.inside_diameter_m, line.spacing_m, line.roughness_m);
    EXPECT_NEAR(flow.hole_pressure_pa[hole], pressure, 1e-6);
    passing -= flow.hole_flow_m3_s[hole];
  }
  EXPECT_NEAR(passing, 0.0, 1e-15);
}

TEST(SolveLine, AgreesWithChristiansensFactorInLaminarFlow) {
  Line line = small_line();
  line.hole_diameter_m = 0.15e-3;
  const LineFlow flow = solve_line(line, mains());
  const double whole = friction_loss_pa(flow.total_flow_m3_s, line.inside_diameter_m, 38 * line.spacing_m, 0.0);
  const double lost = flow.inlet_pressure_pa - flow.hole_pressure_pa.back();
  EXPECT_NEAR(lost / whole, christiansen_f(38, 1.0), 1e-3);
}

TEST(SolveLine, UniformityFallsWithWiderHoles) {
  Line line = small_line();
  const LineFlow fine = solve_line(line, mains());
  line.hole_diameter_m = 3e-3;
  const LineFlow wide = solve_line(line, mains());
  EXPECT_GT(fine.christiansen_uniformity, 0.98);
  EXPECT_LT(wide.christiansen_uniformity, fine.christiansen_uniformity - 0.05);
  EXPECT_LT(wide.low_quarter_uniformity, fine.low_quarter_uniformity);
}

TEST(SolveLine, RingIsMoreEvenThanTheSameLineOpen) {
  Line line = small_line();
  line.hole_diameter_m = 2e-3;
  const LineFlow open = solve_line(line, mains());
  line.ring = true;
  const LineFlow ring = solve_line(line, mains());
  EXPECT_EQ(ring.hole_flow_m3_s.size(), open.hole_flow_m3_s.size());
  EXPECT_GT(ring.christiansen_uniformity, open.christiansen_uniformity);
  EXPECT_GT(ring.total_flow_m3_s, open.total_flow_m3_s);
}

TEST(SolveLine, RingMirrorsAtItsFarPointForEvenAndOddCounts) {
  for (const double length : {3.8, 3.7}) {
    Line line = small_line();
    line.length_m = length;
    line.ring = true;
    const LineFlow flow = solve_line(line, mains());
    std::vector<double> back = flow.hole_flow_m3_s;
    std::reverse(back.begin(), back.end());
    EXPECT_EQ(back, flow.hole_flow_m3_s);
    EXPECT_NEAR(flow.total_flow_m3_s, sum(flow.hole_flow_m3_s), 1e-15) << flow.holes;
    const auto least = std::min_element(flow.hole_pressure_pa.begin(), flow.hole_pressure_pa.end());
    EXPECT_EQ(least - flow.hole_pressure_pa.begin(), (flow.holes - 1) / 2);
  }
}

TEST(SolveLine, SpraysTakeInletPressureByTheRootLaw) {
  Line line = small_line();
  line.sprays = 3;
  line.spray_flow_m3_s = 1e-5;
  line.spray_pressure_pa = 1e5;
  const LineFlow flow = solve_line(line, mains());
  EXPECT_NEAR(flow.total_flow_m3_s - sum(flow.hole_flow_m3_s), 3e-5 * std::sqrt(1.5), 1e-12);
}

TEST(SolveLine, SupplyLimitLowersThePressureUntilTheFlowFits) {
  Supply weak = mains();
  weak.flow_max_m3_s = 0.5 * solve_line(small_line(), mains()).total_flow_m3_s;
  const LineFlow flow = solve_line(small_line(), weak);
  EXPECT_TRUE(flow.supply_limits);
  EXPECT_NEAR(flow.total_flow_m3_s, weak.flow_max_m3_s, 1e-6 * weak.flow_max_m3_s);
  EXPECT_NEAR(flow.inlet_pressure_pa / 1.5e5, 0.25, 0.02) << "flow goes with the root of pressure";
}

TEST(SolveLine, AmpleSupplyDoesNotLimit) {
  Supply ample = mains();
  ample.flow_max_m3_s = 1.0;
  EXPECT_FALSE(solve_line(small_line(), ample).supply_limits);
}

TEST(SolveLine, NamesEveryValueThatCannotBe) {
  Line line = small_line();
  line.inside_diameter_m = 0.0;
  line.sprays = 2;
  Supply supply = mains();
  supply.pressure_pa = -1.0;
  try {
    (void)solve_line(line, supply);
    FAIL() << "accepted";
  } catch (const InputError& error) {
    std::vector<std::string> where;
    for (const Problem& problem : error.problems()) where.push_back(problem.where);
    for (const char* key : {"water line, inside diameter", "water supply, pressure", "water line, spray flow"}) {
      EXPECT_NE(std::find(where.begin(), where.end(), key), where.end()) << key;
    }
  }
}

TEST(SolveLine, RefusesHolesAsWideAsTheLineAndSpacingsBeyondIt) {
  Line line = small_line();
  line.hole_diameter_m = 0.0135;
  EXPECT_THROW((void)solve_line(line, mains()), InputError);
  line = small_line();
  line.spacing_m = 4.0;
  EXPECT_THROW((void)solve_line(line, mains()), InputError);
}

TEST(Uniformity, OfEqualCatchesIsOneAndOfNothingIsNone) {
  EXPECT_DOUBLE_EQ(christiansen_uniformity({3.0, 3.0, 3.0}), 1.0);
  EXPECT_DOUBLE_EQ(low_quarter_uniformity({3.0, 3.0, 3.0}), 1.0);
  EXPECT_EQ(christiansen_uniformity({}), 0.0);
  EXPECT_EQ(low_quarter_uniformity({}), 0.0);
  EXPECT_EQ(low_half_uniformity({0.0, 0.0}), 0.0);
}

TEST(Uniformity, OfLowPartsRoundsTheCountUp) {
  EXPECT_DOUBLE_EQ(low_half_uniformity({1.0, 2.0, 6.0}), 0.5);
  EXPECT_DOUBLE_EQ(low_quarter_uniformity({5.0, 1.0, 2.0, 6.0, 6.0}), 1.5 / 4.0);
}

}  // namespace
}  // namespace stillheap::water
