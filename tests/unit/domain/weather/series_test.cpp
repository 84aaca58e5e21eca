#include "domain/weather/series.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/days.hpp"
#include "normals.hpp"

namespace stillheap::weather {
namespace {

Series counting() {
  Series series;
  series.hours.resize(8760);
  for (std::size_t hour = 0; hour < 8760; ++hour) series.hours[hour].air_c = static_cast<double>(hour);
  return series;
}

TEST(Calendar, KnowsItsMonths) {
  EXPECT_EQ(first_day_of(0), 0);
  EXPECT_EQ(first_day_of(2), 59);
  EXPECT_EQ(first_day_of(11), 334);
  EXPECT_EQ(month_of(58), 1);
  EXPECT_EQ(month_of(59), 2);
  EXPECT_EQ(month_of(364), 11);
}

TEST(WeatherAt, IsLinearBetweenHours) {
  const Series series = counting();
  EXPECT_DOUBLE_EQ(at(series, 0.0).air_c, 0.0);
  EXPECT_DOUBLE_EQ(at(series, 3600.0 * 10).air_c, 10.0);
  EXPECT_DOUBLE_EQ(at(series, 3600.0 * 10.25).air_c, 10.25);
}

TEST(WeatherAt, WrapsAtTheEndOfTheYear) {
  const Series series = counting();
  EXPECT_DOUBLE_EQ(at(series, 3600.0 * 8759.5).air_c, 8759.0 / 2.0);
  EXPECT_DOUBLE_EQ(at(series, 3600.0 * (8760.0 + 3.5)).air_c, 3.5);
  EXPECT_DOUBLE_EQ(at(series, -3600.0).air_c, 8759.0);
  EXPECT_NEAR(at(series, 3600.0 * 8760.0 * 40.0 + 7200.0).air_c, 2.0, 1e-6);
}

TEST(WeatherAt, OfAnEmptySeriesGivesTheDefaults) { EXPECT_DOUBLE_EQ(at(Series{}, 5.0).pressure_pa, 101325.0); }

TEST(DailyMeans, KeepTheMeansAndStandAtNoon) {
  const Series hourly = from_monthly(test_normals(), test_place());
  const Series daily = daily_means(hourly);
  ASSERT_EQ(daily.hours.size(), 365U);
  double mean = 0.0;
  for (std::size_t hour = 0; hour < 24; ++hour) mean += hourly.hours[24UL * 40 + hour].air_c / 24.0;
  EXPECT_NEAR(daily.hours[40].air_c, mean, 1e-12);
  EXPECT_NEAR(at(daily, 86400.0 * 40.5).air_c, mean, 1e-9);
}

TEST(DailyMeans, KeepTheVapour) {
  const Series hourly = from_monthly(test_normals(), test_place());
  const Series daily = daily_means(hourly);
  double vapour = 0.0;
  for (std::size_t hour = 0; hour < 24; ++hour) {
    const Hour& one = hourly.hours[24UL * 200 + hour];
    vapour += one.humidity * saturation_pressure_pa(one.air_c) / 24.0;
  }
  EXPECT_NEAR(daily.hours[200].humidity * saturation_pressure_pa(daily.hours[200].air_c), vapour, 1e-9);
}

TEST(DailyMeans, OfDailyMeansAreThemselves) {
  const Series daily = daily_means(from_monthly(test_normals(), test_place()));
  EXPECT_EQ(daily_means(daily).hours.size(), 365U);
  EXPECT_EQ(daily_means(daily).assumptions.size(), daily.assumptions.size());
}

TEST(MonthlyEto, IsHighInSummerAndLowInWinter) {
  const auto eto = monthly_eto_m_s(from_monthly(test_normals(), test_place()));
  const double july_mm_day = eto[6] * 86400.0 * 1000.0;
  const double january_mm_day = eto[0] * 86400.0 * 1000.0;
  EXPECT_GT(july_mm_day, 3.0);
  EXPECT_LT(july_mm_day, 5.0);
  EXPECT_LT(january_mm_day, 0.8);
  EXPECT_GE(january_mm_day, 0.0);
}

TEST(SunShares, AddUpToOneDay) {
  for (const double degrees : {-35.0, 0.0, 47.0, 65.0}) {
    for (const int day : {1, 80, 172, 300}) {
      double sum = 0.0;
      for (int hour = 0; hour < 24; ++hour) sum += sun_share(degrees * constant::pi / 180.0, day, hour);
      EXPECT_NEAR(sum, 1.0, 1e-12) << degrees << " " << day;
    }
  }
  EXPECT_EQ(sun_share(80.0 * constant::pi / 180.0, 355, 12), 0.0);
}

TEST(TemperatureCourse, IsContinuousAtSunriseSunsetAndMidnight) {
  for (const double day : {6.0, 8.5, 12.0, 16.0, 24.0}) {
    const double length = std::clamp(day, 4.0, 20.0);
    for (const double moment : {12.0 - length / 2, 12.0 + length / 2}) {
      EXPECT_NEAR(temperature_course(day, moment - 1e-7), temperature_course(day, moment + 1e-7), 1e-6);
    }
    EXPECT_NEAR(temperature_course(day, 0.0), temperature_course(day, 24.0), 1e-12);
    EXPECT_NEAR(temperature_course(day, 13.5), 1.0, 1e-12);
  }
}

TEST(SkyLongwave, IsMoreUnderCloudAndInMoistAir) {
  const double clear = sky_longwave_w_m2(15.0, 1000.0, 1.0);
  EXPECT_GT(sky_longwave_w_m2(15.0, 1000.0, 0.3), clear);
  EXPECT_GT(sky_longwave_w_m2(15.0, 1600.0, 1.0), clear);
  EXPECT_NEAR(sky_longwave_w_m2(15.0, 1000.0, 0.0), 390.9, 0.2) << "a black sky radiates like a black body";
  EXPECT_TRUE(std::isfinite(sky_longwave_w_m2(15.0, 0.0, 1.0)));
}

}  // namespace
}  // namespace stillheap::weather
