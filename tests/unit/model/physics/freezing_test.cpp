#include "model/physics/freezing.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace stillheap::physics {
namespace {

TEST(Freezing, BeginsAtZeroInWetAndBelowInSaltyOrDryMaterial) {
  EXPECT_NEAR(freezing(2.0, 0.0).celsius, 0.0, 1e-9);
  // 1 % of salt in 2 kg/kg of water.
  EXPECT_NEAR(freezing(2.0, 0.02).celsius, -0.01 * salt_lowers_k, 0.01);
  EXPECT_LT(freezing(0.3, 0.0).celsius, -1.0);
  EXPECT_LT(freezing(0.2, 0.0).celsius, freezing(0.3, 0.0).celsius);
}

TEST(Freezing, HasTheSlopeOfItsCurve) {
  for (const double liquid : {0.15, 0.3, 0.5, 1.5}) {
    for (const double salt : {1e-4, 0.01, 0.05}) {
      constexpr double h = 1e-6;
      const double differenced = (freezing(liquid + h, salt).celsius - freezing(liquid - h, salt).celsius) / (2.0 * h);
      EXPECT_NEAR(freezing(liquid, salt).slope_k, differenced, 1e-5 * differenced + 1e-6) << liquid << " " << salt;
    }
  }
}

TEST(IceActivity, IsTheInverseOfTheBalanceAndHasItsSlope) {
  for (const double celsius : {-0.01, -1.0, -10.0, -40.0}) {
    constexpr double h = 1e-4;
    const IceActivity ice = ice_activity(celsius);
    EXPECT_NEAR(ice_balance(freeing_work_j_kg(std::log(ice.value))).celsius, celsius, 1e-9);
    EXPECT_NEAR(ice.slope_1_k, (ice_activity(celsius + h).value - ice_activity(celsius - h).value) / (2.0 * h), 1e-8);
  }
}

TEST(LiquidBesideIce, IsWhatFreezesAtThatTemperature) {
  for (const double celsius : {-0.001, -0.1, -1.0, -5.0, -20.0, -60.0}) {
    for (const double salt : {2e-4, 0.01, 0.05}) {
      const double liquid = liquid_beside_ice(celsius, salt, 2.0).dry;
      if (liquid == 2.0) {
        EXPECT_LE(freezing(2.0, salt).celsius, celsius);
      } else {
        EXPECT_NEAR(freezing(liquid, salt).celsius, celsius, 1e-8);
      }
    }
  }
}

TEST(LiquidBesideIce, LeavesDryMaterialAlone) {
  EXPECT_EQ(liquid_beside_ice(-10.0, 1e-5, 0.1).dry, 0.1);
  EXPECT_EQ(liquid_beside_ice(5.0, 0.0, 2.0).dry, 2.0);
}

}  // namespace
}  // namespace stillheap::physics
