#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "model/physics/liquid_water.hpp"
#include "model/physics/parameters.hpp"
#include "model/physics/retention.hpp"
#include "model/physics/settlement.hpp"

namespace stillheap::physics {
namespace {

TEST(Drainage, StartsAboveWhatIsHeldAndEndsAtSaturation) {
  EXPECT_EQ(drainage_kg_m2_s(1.8, 1.8, 4.0, 5e-4), 0.0);
  EXPECT_EQ(drainage_kg_m2_s(0.5, 1.8, 4.0, 5e-4), 0.0);
  EXPECT_DOUBLE_EQ(drainage_kg_m2_s(4.0, 1.8, 4.0, 5e-4), 0.5);
  EXPECT_DOUBLE_EQ(drainage_kg_m2_s(9.0, 1.8, 4.0, 5e-4), 0.5);
  EXPECT_NEAR(drainage_kg_m2_s(2.9, 1.8, 4.0, 5e-4), 0.5 / 8.0, 1e-12);
}

TEST(Drainage, StandsAHeapThatHoldsNoMoreThanItsPores) {
  const double flow = drainage_kg_m2_s(2.0, 1.9, 1.8, 5e-4);
  EXPECT_GT(flow, 0.0);
  EXPECT_LE(flow, 0.5);
}

TEST(Retention, HoldsTighterAsItDries) {
  EXPECT_DOUBLE_EQ(suction_m(1.0, 3.7, 0.1), 0.1);
  EXPECT_DOUBLE_EQ(suction_m(1.5, 3.7, 0.1), 0.1);
  EXPECT_NEAR(suction_m(0.5, 3.7, 0.1), 0.1 * std::pow(2.0, 3.7), 1e-12);
  EXPECT_TRUE(std::isfinite(suction_m(0.0, 3.7, 0.1)));
}

TEST(Retention, FallsUpwardsByTheSlopeOfItsOwnCurve) {
  constexpr double share = 0.8, step = 1e-6;
  const double slope = (suction_m(share + step, 3.7, 0.1) - suction_m(share - step, 3.7, 0.1)) / (2.0 * step);
  EXPECT_NEAR(share_lost_upwards_1_m(share, 3.7, 0.1), -1.0 / slope, 1e-6);
}

TEST(Creep, SlowsAsItDriesAndNeverPassesItsValueAtHolding) {
  EXPECT_DOUBLE_EQ(capillary_diffusivity_m2_s(1.0, 2.0, 7e-8), 7e-8);
  EXPECT_DOUBLE_EQ(capillary_diffusivity_m2_s(2.0, 2.0, 7e-8), 7e-8);
  EXPECT_DOUBLE_EQ(capillary_diffusivity_m2_s(0.5, 2.0, 7e-8), 7e-8 / 16.0);
  EXPECT_EQ(capillary_diffusivity_m2_s(0.0, 2.0, 7e-8), 0.0);
}

TEST(Settlement, GrowsWithLoadAndStopsShortOfNothing) {
  EXPECT_EQ(compression_strain(0.0, 0.12), 0.0);
  EXPECT_EQ(compression_strain(-5.0, 0.12), 0.0);
  EXPECT_DOUBLE_EQ(compression_strain(9000.0, 0.12), 0.12);
  EXPECT_LT(compression_strain(2000.0, 0.12), compression_strain(4000.0, 0.12));
  EXPECT_EQ(compression_strain(1e12, 5.0), 0.9);
}

TEST(Settlement, LosesHeightWithSolids) {
  EXPECT_EQ(layer_height_ratio(1.0, 1.0, 0.0), 1.0);
  EXPECT_DOUBLE_EQ(layer_height_ratio(0.5, 1.0, 0.2), 0.4);
  EXPECT_GT(layer_height_ratio(0.5, 0.6, 0.0), layer_height_ratio(0.5, 1.3, 0.0));
}

TEST(Parameters, AreEachListedOnceWithUnitSourceAndSpread) {
  std::set<std::string> names;
  for (const ParameterRow& row : parameter_rows()) {
    EXPECT_TRUE(names.insert(std::string(row.name)).second) << row.name;
    EXPECT_FALSE(row.unit.empty()) << row.name;
    EXPECT_FALSE(row.source.empty()) << row.name;
    EXPECT_GT(row.deviation, 0.0) << row.name;
  }
  EXPECT_EQ(names.size() * sizeof(double), sizeof(Parameters));
}

TEST(Parameters, StayPhysicalTwoAndAHalfDeviationsOut) {
  const Parameters central;
  for (const ParameterRow& row : parameter_rows()) {
    const double value = central.*row.member;
    const double low = row.spread == Spread::normal ? value - 2.5 * row.deviation : value;
    EXPECT_GT(value, 0.0) << row.name;
    EXPECT_GT(low, 0.0) << row.name;
  }
  const double best_highest = central.temperature_best_c + 2.5 * 1.5;
  const double most_lowest = central.temperature_most_c - 2.5 * 2.0;
  EXPECT_LT(best_highest, most_lowest);
}

}  // namespace
}  // namespace stillheap::physics
