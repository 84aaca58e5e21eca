#include "domain/weather/rough.hpp"

#include <gtest/gtest.h>

#include "core/base/constants.hpp"

namespace stillheap::weather {
namespace {

double rad(double degrees) { return degrees * constant::pi / 180.0; }

// FAO-56 example 15, from memory: Lyon, 45 deg 43' north, July, 14.8 to 26.6 degC: 22.3 MJ/m2 a day.
TEST(RoughMonthly, GivesTheSunOfTheHandbooksExample) {
  const Monthly monthly = rough_monthly({0.0, 6.0, 14.8, 26.6, 0.8}, rad(45.0 + 43.0 / 60.0));
  EXPECT_NEAR(1e-6 * monthly.sun_j_m2_day[6], 22.3, 0.2);  // the day of the month moves it by 0.1
}

TEST(RoughMonthly, MeetsTheMonthsItWasTold) {
  const Extremes told{-2.0, 4.0, 13.0, 24.0, 0.9};
  const Monthly north = rough_monthly(told, rad(47.0));
  EXPECT_NEAR(north.low_c[0], -2.0, 1e-9);
  EXPECT_NEAR(north.high_c[6], 24.0, 1e-9);
  double rain_m = 0.0;
  for (const double one : north.rain_m_month) rain_m += one;
  EXPECT_NEAR(rain_m, 0.9, 1e-9);
  const Monthly south = rough_monthly(told, rad(-38.0));
  EXPECT_NEAR(south.high_c[0], 24.0, 1e-9);
  EXPECT_NEAR(south.low_c[6], -2.0, 1e-9);
  EXPECT_GT(south.sun_j_m2_day[0], 2.0 * south.sun_j_m2_day[6]);
}

TEST(RoughMonthly, CanBeMadeAYearOfEverywhere) {
  for (const double latitude : {-90.0, -66.0, 0.0, 51.0, 70.0, 90.0}) {
    for (const Extremes& one : {Extremes{-40.0, -30.0, 5.0, 30.0, 0.0}, Extremes{18.0, 27.0, 24.0, 45.0, 4.0}}) {
      const Series year = from_monthly(rough_monthly(one, rad(latitude)), {rad(latitude), 0.0, 100.0});
      EXPECT_EQ(year.hours.size(), 8760U) << latitude;
    }
  }
}

}  // namespace
}  // namespace stillheap::weather
