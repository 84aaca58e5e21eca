#include "domain/weather/evapotranspiration.hpp"

#include <gtest/gtest.h>

#include "core/base/constants.hpp"

namespace stillheap::weather {
namespace {

double rad(double degrees) { return degrees * constant::pi / 180.0; }

EtoDay summer_day() {
  EtoDay day;
  day.low_c = 12.0;
  day.high_c = 24.0;
  day.vapour_pa = 1400.0;
  day.wind_2m_m_s = 2.0;
  day.sun_j_m2 = 22e6;
  day.latitude_rad = rad(48.0);
  day.elevation_m = 200.0;
  day.day_of_year = 190;
  return day;
}

TEST(Evapotranspiration, RisesWithSunWindAndDryness) {
  const double base = reference_eto_m_day(summer_day());
  EtoDay day = summer_day();
  day.sun_j_m2 = 26e6;
  EXPECT_GT(reference_eto_m_day(day), base);
  day = summer_day();
  day.wind_2m_m_s = 5.0;
  EXPECT_GT(reference_eto_m_day(day), base);
  day = summer_day();
  day.vapour_pa = 900.0;
  EXPECT_GT(reference_eto_m_day(day), base);
}

TEST(Evapotranspiration, SoilTakingHeatLeavesLess) {
  EtoDay day = summer_day();
  day.soil_heat_j_m2 = 2e6;
  EXPECT_LT(reference_eto_m_day(day), reference_eto_m_day(summer_day()));
}

TEST(Evapotranspiration, CountsDewAsNone) {
  EtoDay day = summer_day();
  day.low_c = day.high_c = 2.0;
  day.vapour_pa = 760.0;
  day.sun_j_m2 = 0.0;
  EXPECT_EQ(reference_eto_m_day(day), 0.0);
}

TEST(Evapotranspiration, BlackSkyStillLosesSomeLongwave) {
  EtoDay day = summer_day();
  day.sun_j_m2 = 0.0;
  EXPECT_GT(net_longwave_out_j_m2(day), 0.0);
  EXPECT_LT(net_longwave_out_j_m2(day), net_longwave_out_j_m2(summer_day()));
}

TEST(Sun, NeverRisesInPolarNightAndNeverSetsInPolarDay) {
  EXPECT_EQ(daylight_hours(rad(80.0), 355), 0.0);
  EXPECT_EQ(extraterrestrial_j_m2(rad(80.0), 355), 0.0);
  EXPECT_DOUBLE_EQ(daylight_hours(rad(80.0), 172), 24.0);
  EXPECT_EQ(sun_from_sunshine_hours_j_m2(rad(80.0), 355, 3.0), 0.0);
  EXPECT_DOUBLE_EQ(clear_share(0.0, 0.0), clear_share_unknown);
}

TEST(Sun, MirrorsBetweenTheHalvesOfTheEarth) {
  EXPECT_GT(daylight_hours(rad(40.0), 172), 14.0);
  EXPECT_NEAR(daylight_hours(rad(40.0), 172) + daylight_hours(rad(-40.0), 172), 24.0, 1e-9);
}

TEST(Sun, IsNeverMoreThanTheClearSkyLetsThrough) {
  const double above = extraterrestrial_j_m2(rad(45.0), 172);
  EXPECT_DOUBLE_EQ(sun_from_sunshine_hours_j_m2(rad(45.0), 172, 30.0), 0.75 * above);
  EXPECT_DOUBLE_EQ(sun_from_temperatures_j_m2(0.0, 40.0, above), 0.75 * above);
  EXPECT_DOUBLE_EQ(sun_from_temperatures_j_m2(10.0, 10.0, above), 0.0);
  EXPECT_DOUBLE_EQ(clear_share(2.0, 1.0), 1.0);
}

TEST(Wind, SlowsTowardTheGround) {
  EXPECT_DOUBLE_EQ(wind_at_2m_m_s(3.0, 2.0), 3.0);
  EXPECT_LT(wind_at_2m_m_s(3.0, 10.0), 3.0);
  EXPECT_GT(wind_at_2m_m_s(3.0, 1.0), 3.0);
}

TEST(Hargreaves, AsksForSunAndRange) {
  EXPECT_EQ(hargreaves_eto_m_day(10.0, 25.0, 0.0), 0.0);
  EXPECT_EQ(hargreaves_eto_m_day(15.0, 15.0, 40e6), 0.0);
  EXPECT_GT(hargreaves_eto_m_day(10.0, 25.0, 40e6), hargreaves_eto_m_day(15.0, 20.0, 40e6));
}

}  // namespace
}  // namespace stillheap::weather
