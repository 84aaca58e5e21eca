#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/smooth.hpp"
#include "normals.hpp"

namespace stillheap::weather {
namespace {

template <typename Pick>
std::vector<double> daily(const Series& series, Pick pick) {
  std::vector<double> days;
  for (std::size_t day = 0; day < 365; ++day) days.push_back(pick(&series.hours[24 * day]));
  return days;
}

template <typename Value>
auto mean_of(Value value) {
  return [value](const Hour* first) {
    double sum = 0.0;
    for (int hour = 0; hour < 24; ++hour) sum += value(first[hour]);
    return sum / 24.0;
  };
}

void expect_normals(const std::vector<double>& days, const std::array<double, 12>& normals, double tolerance) {
  const auto means = monthly_means(days);
  for (std::size_t month = 0; month < 12; ++month) {
    EXPECT_NEAR(means[month], normals[month], tolerance) << "month " << month + 1;
  }
}

bool colder(const Hour& a, const Hour& b) { return a.air_c < b.air_c; }

TEST(FromMonthly, GivesBackLowestAndHighestTemperatures) {
  const Series series = from_monthly(test_normals(), test_place());
  ASSERT_EQ(series.hours.size(), 8760U);
  const auto low = daily(series, [](const Hour* h) { return std::min_element(h, h + 24, colder)->air_c; });
  const auto high = daily(series, [](const Hour* h) { return std::max_element(h, h + 24, colder)->air_c; });
  expect_normals(low, test_normals().low_c, 1e-9);
  expect_normals(high, test_normals().high_c, 1e-9);
}

TEST(FromMonthly, GivesBackSunHumidityWindAndRain) {
  const Series series = from_monthly(test_normals(), test_place());
  const Monthly normals = test_normals();
  const auto sun = daily(series, mean_of([](const Hour& h) { return h.sun_w_m2 * 86400.0; }));
  expect_normals(sun, normals.sun_j_m2_day, 1.0);
  expect_normals(daily(series, mean_of([](const Hour& h) { return h.humidity; })), normals.humidity, 1e-9);
  expect_normals(daily(series, mean_of([](const Hour& h) { return h.wind_m_s; })), normals.wind_m_s, 1e-9);
  std::array<double, 12> rain_m_s{};
  for (std::size_t m = 0; m < 12; ++m) rain_m_s[m] = normals.rain_m_month[m] / (month_days[m] * 86400.0);
  expect_normals(daily(series, mean_of([](const Hour& h) { return h.rain_m_s; })), rain_m_s, 1e-20);
}

TEST(FromMonthly, IsColdestNearSunriseAndWarmestAfterNoon) {
  const Series series = from_monthly(test_normals(), test_place());
  for (const std::size_t day : {15U, 105U, 196U, 288U}) {
    const Hour* first = &series.hours[24 * day];
    const auto low = std::min_element(first, first + 24, colder) - first;
    const auto high = std::max_element(first, first + 24, colder) - first;
    EXPECT_GE(low, 3);
    EXPECT_LE(low, 8);
    EXPECT_GE(high, 13);
    EXPECT_LE(high, 14);
  }
}

TEST(FromMonthly, SunShinesByDayOnlyAndPeaksAtNoon) {
  const Series series = from_monthly(test_normals(), test_place());
  const std::size_t day = 24UL * 171UL;
  EXPECT_EQ(series.hours[day].sun_w_m2, 0.0);
  EXPECT_GT(series.hours[day + 12].sun_w_m2, series.hours[day + 9].sun_w_m2);
  EXPECT_NEAR(series.hours[day + 9].sun_w_m2, series.hours[day + 15].sun_w_m2, 1e-6);
}

TEST(FromMonthly, StaysWithinNature) {
  Monthly wet = test_normals();
  wet.humidity.fill(0.97);
  for (const Hour& hour : from_monthly(wet, test_place()).hours) {
    EXPECT_GT(hour.humidity, 0.0);
    EXPECT_LE(hour.humidity, 1.0);
    EXPECT_GE(hour.sun_w_m2, 0.0);
    EXPECT_GT(hour.longwave_w_m2, 150.0);
    EXPECT_LT(hour.longwave_w_m2, 450.0);
    EXPECT_NEAR(hour.pressure_pa, 96270.0, 30.0);
  }
}

TEST(FromMonthly, MovesGentlyFromHourToHour) {
  const Series series = from_monthly(test_normals(), test_place());
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    EXPECT_LT(std::abs(series.hours[hour].air_c - series.hours[(hour + 1) % 8760].air_c), 2.5) << hour;
  }
}

TEST(FromMonthly, WorksThroughPolarNight) {
  Place pole = test_place();
  pole.latitude_rad = 80.0 * constant::pi / 180.0;
  Monthly normals = test_normals();
  normals.sun_j_m2_day = {0, 0, 3e6, 12e6, 20e6, 22e6, 20e6, 11e6, 3e6, 0, 0, 0};
  const Series series = from_monthly(normals, pole);
  expect_normals(daily(series, mean_of([](const Hour& h) { return h.sun_w_m2 * 86400.0; })), normals.sun_j_m2_day, 1.0);
  for (const Hour& hour : series.hours) EXPECT_TRUE(std::isfinite(hour.air_c + hour.longwave_w_m2 + hour.humidity));
}

TEST(FromMonthly, SaysWhatItTakesForGranted) {
  EXPECT_GE(from_monthly(test_normals(), test_place()).assumptions.size(), 7U);
}

TEST(FromMonthly, NamesEveryNormalThatCannotBe) {
  Monthly bad = test_normals();
  bad.humidity[3] = 69.0;
  bad.wind_m_s[7] = -1.0;
  bad.rain_m_month[0] = NAN;
  try {
    (void)from_monthly(bad, test_place());
    FAIL() << "accepted";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 3U);
    EXPECT_EQ(error.problems()[0].where, "weather, monthly humidity, April");
    EXPECT_EQ(error.problems()[0].what, "69 cannot be");
    EXPECT_EQ(error.problems()[0].mend, "give 1 to 100 %");
  }
}

TEST(FromMonthly, RefusesMoreSunThanReachesTheAirAndLowAboveHigh) {
  Monthly bad = test_normals();
  bad.sun_j_m2_day[0] = 15e6;
  bad.low_c[6] = 26.0;
  try {
    (void)from_monthly(bad, test_place());
    FAIL() << "accepted";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 2U);
    EXPECT_NE(error.problems()[0].what.find("15 MJ/m2 a day is more than the"), std::string::npos);
    EXPECT_NE(error.problems()[1].what.find("low 26 degC is above high 25 degC"), std::string::npos);
  }
}

}  // namespace
}  // namespace stillheap::weather
