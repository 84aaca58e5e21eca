#include "domain/weather/air.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace stillheap::weather {
namespace {

TEST(Air, HoldsMoreVapourTheWarmerItIs) {
  for (int celsius = -30; celsius < 90; ++celsius) {
    EXPECT_LT(saturation_pressure_pa(celsius), saturation_pressure_pa(celsius + 1.0));
  }
  EXPECT_DOUBLE_EQ(saturation_pressure_pa(0.0), 610.8);
}

TEST(Air, SaturationSlopeIsTheDerivativeOfTheCurve) {
  for (const double celsius : {-20.0, 0.0, 20.0, 55.0, 75.0}) {
    const double step = 1e-4;
    const double numeric =
        (saturation_pressure_pa(celsius + step) - saturation_pressure_pa(celsius - step)) / (2.0 * step);
    EXPECT_NEAR(saturation_slope_pa_k(celsius), numeric, 1e-6 * numeric);
  }
}

TEST(Air, FastSaturationStaysNearTheFineOneOverWater) {
  for (int celsius = 0; celsius <= 80; ++celsius) {
    const double most = celsius >= 40 && celsius <= 70 ? 1.2e-3 : 2.5e-3;
    EXPECT_NEAR(saturation_pressure_pa(celsius) / saturation_pressure_fine_pa(celsius), 1.0, most) << celsius;
  }
}

TEST(Air, IceHoldsLessVapourThanWaterOfTheSameTemperature) {
  EXPECT_LT(saturation_pressure_fine_pa(-10.0), 0.93 * saturation_pressure_pa(-10.0));
  EXPECT_NEAR(saturation_pressure_fine_pa(-1e-9), saturation_pressure_fine_pa(0.0), 0.2);
}

TEST(Air, HumidityRatioAndVapourPressureUndoEachOther) {
  const double vapour_pa = 2345.0;
  EXPECT_NEAR(vapour_pressure_pa(humidity_ratio(vapour_pa, 98000.0), 98000.0), vapour_pa, 1e-9);
  EXPECT_EQ(humidity_ratio(0.0, 98000.0), 0.0);
}

TEST(Air, MoistIsLighterThanDry) {
  const double dry = moist_air_density_kg_m3(20.0, 0.0, 101325.0);
  EXPECT_NEAR(dry, 1.2041, 2e-4);
  EXPECT_LT(moist_air_density_kg_m3(20.0, 2000.0, 101325.0), dry);
  EXPECT_LT(moist_air_density_kg_m3(60.0, 0.0, 101325.0), dry);
}

TEST(Air, DensitiesOfVapourAndRatioAgree) {
  const double vapour_pa = 3000.0;
  const double whole = moist_air_density_kg_m3(30.0, vapour_pa, 101325.0);
  const double vapour = vapour_density_kg_m3(30.0, vapour_pa);
  EXPECT_NEAR(vapour / (whole - vapour), humidity_ratio(vapour_pa, 101325.0), 1e-12);
}

TEST(Air, DewPointUndoesSaturation) {
  for (const double celsius : {-25.0, -0.001, 0.0, 0.001, 20.0, 70.0}) {
    EXPECT_NEAR(dew_point_c(saturation_pressure_pa(celsius)), celsius, 1e-9);
  }
}

TEST(Air, DewPointOfDryAirIsFinite) {
  EXPECT_DOUBLE_EQ(dew_point_c(0.0), -237.3);
  EXPECT_DOUBLE_EQ(dew_point_c(-1.0), -237.3);
}

TEST(Air, WetBulbIsTheDryBulbOfSaturatedAirAndFallsAsItDries) {
  for (const double celsius : {-12.0, 4.0, 25.0, 60.0}) {
    EXPECT_NEAR(wet_bulb_c(celsius, 1.0, 95000.0), celsius, 1e-6);
    double last = celsius;
    for (const double humidity : {0.8, 0.5, 0.2, 0.0}) {
      const double bulb = wet_bulb_c(celsius, humidity, 95000.0);
      EXPECT_LT(bulb, last);
      last = bulb;
    }
  }
}

TEST(Air, LatentHeatFallsWithTemperature) {
  EXPECT_DOUBLE_EQ(latent_heat_j_kg(0.0), 2.501e6);
  EXPECT_DOUBLE_EQ(latent_heat_j_kg(100.0), 2.2649e6);
}

TEST(Air, StandardPressureFallsWithHeight) {
  EXPECT_DOUBLE_EQ(standard_pressure_pa(0.0), 101325.0);
  EXPECT_LT(standard_pressure_pa(2000.0), standard_pressure_pa(1000.0));
  EXPECT_GT(standard_pressure_pa(-200.0), 101325.0);
}

}  // namespace
}  // namespace stillheap::weather
