#include "model/forecast/cold_twin.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "model/forecast/run.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

Request october(int days) {
  Request request = common_request(days);
  request.start_day_of_year = 288;  // 15 October
  request.grid = Grid::draft;
  request.members = 0;
  return request;
}

Result forecast_of(const Request& request) {
  return run(request, [](double, const std::string&) { return true; });
}

TEST(ColdTwin, FollowsTheAirAndMakesNoHeat) {
  const Request request = october(60);
  const auto twin = cold_twin(request, [](double) { return true; });
  ASSERT_GE(twin.size(), 60U);
  double air_c = -100.0;
  for (int hour = 0; hour < 60 * 24; ++hour) {
    air_c = std::max(air_c, weather::at(request.weather, (287.0 * 24.0 + hour) * 3600.0).air_c);
  }
  for (const rules::HeatDay& one : twin) {
    EXPECT_LE(one.core_c, std::max(air_c, request.fill_temperature_c) + 1.0) << "day " << one.day;
  }
}

TEST(EndOfSelfHeating, IsTheSameDayInShortAndLongForecasts) {
  const Result year = forecast_of(october(365));
  ASSERT_TRUE(year.summary.heated);
  ASSERT_TRUE(year.summary.cool_day.has_value()) << "else this compares nothing";
  const double end_day = *year.summary.cool_day;
  EXPECT_GT(end_day, 5.0);
  EXPECT_LT(end_day, 340.0);
  const int just_enough = static_cast<int>(std::ceil(end_day)) + 15;
  for (const int days : {just_enough, just_enough + 40}) {
    EXPECT_EQ(forecast_of(october(days)).summary.cool_day, year.summary.cool_day) << days << " days";
  }
  EXPECT_FALSE(forecast_of(october(std::max(15, static_cast<int>(end_day) + 5))).summary.cool_day)
      << "not within a forecast that ends before the 14 days are over";
}

TEST(EndOfSelfHeating, OfAHeapWithoutDecayIsNoEnd) {
  Request inert = october(60);
  inert.blend.pool_rate_20c_per_s.fill(0.0);
  const Summary summary = forecast_of(inert).summary;
  EXPECT_FALSE(summary.heated);
  EXPECT_FALSE(summary.cool_day);
  EXPECT_NEAR(summary.degradable_left.middle, 1.0, 1e-9);
}

TEST(HeatDays, TakeWhatStaysThroughTheDay) {
  std::vector<HistoryRow> rows(4);
  const double hottest_c[] = {20.0, 34.0, 26.0, 19.0};
  for (std::size_t i = 0; i < 4; ++i) {
    rows[i].day = 2.25 + 0.25 * static_cast<double>(i);
    rows[i].core_c = 18.0;
    rows[i].hottest_c = hottest_c[i];
  }
  const auto days = heat_days(rows);
  ASSERT_EQ(days.size(), 1U);
  EXPECT_EQ(days[0].day, 3.0);
  EXPECT_EQ(days[0].hottest_c, 19.0) << "sun on the wall at noon is no heat";
}

}  // namespace
}  // namespace stillheap::forecast
