#include <gtest/gtest.h>

#include "model/physics/decay_factors.hpp"
#include "model/physics/temperature_response.hpp"
#include "model/physics/water_activity.hpp"

namespace stillheap::physics {
namespace {

TEST(CardinalResponse, IsOneAtTheBestAndNothingAtAndBeyondTheEnds) {
  EXPECT_NEAR(cardinal_response(58.6, 5.0, 58.6, 71.6), 1.0, 1e-12);
  for (const double celsius : {-20.0, 5.0, 71.6, 90.0}) EXPECT_EQ(cardinal_response(celsius, 5.0, 58.6, 71.6), 0.0);
}

TEST(CardinalResponse, RisesToTheBestAndFallsAfterIt) {
  double before = 0.0;
  for (int step = 11; step <= 117; ++step) {
    const double celsius = 0.5 * step;
    const double now = cardinal_response(celsius, 5.0, 58.6, 71.6);
    EXPECT_GT(now, before) << celsius;
    before = now;
  }
  before = 1.0;
  for (int step = 118; step <= 143; ++step) {
    const double celsius = 0.5 * step;
    const double now = cardinal_response(celsius, 5.0, 58.6, 71.6);
    EXPECT_LT(now, before) << celsius;
    EXPECT_GE(now, 0.0) << celsius;
    before = now;
  }
}

TEST(TwoExponentials, AreNeverNegative) {
  EXPECT_GT(two_exponential_response(80.0), 0.0);
  for (const double celsius : {80.5, 90.0, 200.0}) EXPECT_EQ(two_exponential_response(celsius), 0.0);
}

TEST(DecayFactors, GrowWithWaterAirAndOxygenAndStayBetweenNothingAndOne) {
  double moisture = 0.0, air = 0.0, oxygen = 0.0;
  for (int step = 1; step < 50; ++step) {
    const double share = 0.02 * step;
    EXPECT_GT(moisture_factor(share), moisture);
    EXPECT_GT(oxygen_factor(share, 0.01), oxygen);
    EXPECT_GE(air_space_factor(share), air);
    moisture = moisture_factor(share);
    air = air_space_factor(share);
    oxygen = oxygen_factor(share, 0.01);
    for (const double factor : {moisture, air, oxygen}) {
      EXPECT_GT(factor, 0.0);
      EXPECT_LT(factor, 1.0 + 1e-12);
    }
  }
}

TEST(DecayFactors, WantOxygen) {
  EXPECT_EQ(oxygen_factor(0.0, 0.01), 0.0);
  EXPECT_EQ(oxygen_factor(-1e-9, 0.01), 0.0);
  EXPECT_DOUBLE_EQ(oxygen_factor(0.3, 0.3), 0.5);
}

TEST(WaterActivity, GoesFromDryToSaturatedWithTheSlopeItClaims) {
  EXPECT_EQ(water_activity(0.0).value, 0.0);
  EXPECT_EQ(water_activity(2.0).value, 1.0);
  EXPECT_EQ(water_activity(2.0).slope, 0.0);
  for (const double water : {0.02, 0.05, 0.1, 0.2, 0.4, 0.8}) {
    constexpr double h = 1e-6;
    const double slope = (water_activity(water + h).value - water_activity(water - h).value) / (2.0 * h);
    EXPECT_NEAR(water_activity(water).slope, slope, 1e-6 * (1.0 + slope));
    EXPECT_GE(slope, 0.0);
  }
}

TEST(WaterActivity, DoesNotJumpWhereItIsTakenAsSaturated) {
  EXPECT_NEAR(water_activity(1.0).value, water_activity(1.0 + 1e-12).value, 1e-9);
}

TEST(WaterActivity, MeetsTheBalanceMoisturesItWasMadeFrom) {
  EXPECT_NEAR(water_activity(0.12).value, 0.65, 0.01);
  EXPECT_NEAR(water_activity(0.205).value, 0.90, 0.01);
}

}  // namespace
}  // namespace stillheap::physics
