#include <gtest/gtest.h>

#include <algorithm>

#include "model/forecast/run.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

Result run_with(const Request& request) {
  return run(request, [](double, const std::string&) { return true; });
}

Request short_request() {
  Request request = draft_weather(common_request(12));
  request.grid = Grid::draft;
  request.members = 0;
  return request;
}

TEST(Pictures, AreKeptOnTheDaysAskedFor) {
  Request request = short_request();
  request.picture_days = {0.75, 3.5, 9.0, 40.0};
  const Result result = run_with(request);
  ASSERT_EQ(result.snapshots.size(), 3U) << "day 40 lies beyond the end";
  EXPECT_NEAR(result.snapshots[0].day, 0.75, 1e-6);
  EXPECT_NEAR(result.snapshots[1].day, 3.5, 1e-6);
  EXPECT_NEAR(result.snapshots[2].day, 9.0, 1e-6);
  EXPECT_TRUE(result.frames.empty());
}

TEST(Pictures, FramesOfAnAnimationChangeNoNumber) {
  Request request = short_request();
  const Result still = run_with(request);
  request.animated = true;
  const Result moving = run_with(request);
  ASSERT_GE(moving.frames.size(), 11U);
  for (std::size_t i = 1; i < moving.frames.size(); ++i) EXPECT_GT(moving.frames[i].day, moving.frames[i - 1].day);
  EXPECT_EQ(still.summary.peak_temperature_c.middle, moving.summary.peak_temperature_c.middle);
  EXPECT_EQ(still.steps, moving.steps);
  ASSERT_EQ(still.snapshots.size(), moving.snapshots.size());
  EXPECT_EQ(still.snapshots.back().temperature_c, moving.snapshots.back().temperature_c);
}

TEST(Bands, HoldTheMiddleLineInEveryColumnOfTheHistory) {
  Request request = short_request();
  request.members = 6;
  const Result result = run_with(request);
  ASSERT_EQ(result.history_low.size(), result.history.size());
  ASSERT_EQ(result.history_high.size(), result.history.size());
  double widest_c = 0.0, widest_kg = 0.0;
  for (std::size_t r = 0; r < result.history.size(); ++r) {
    const HistoryRow &low = result.history_low[r], &line = result.history[r], &high = result.history_high[r];
    for (double HistoryRow::*value :
         {&HistoryRow::mean_c, &HistoryRow::core_c, &HistoryRow::hottest_c, &HistoryRow::coldest_c,
          &HistoryRow::lowest_oxygen, &HistoryRow::mean_oxygen, &HistoryRow::mean_moisture_wet,
          &HistoryRow::dry_mass_kg, &HistoryRow::height_m, &HistoryRow::uptake_kg_s, &HistoryRow::evaporated_kg_day,
          &HistoryRow::drained_kg_day, &HistoryRow::sprinkled_kg_day}) {
      EXPECT_LE(low.*value, line.*value);
      EXPECT_GE(high.*value, line.*value);
    }
    EXPECT_EQ(low.day, line.day);
    EXPECT_EQ(high.outside_c, line.outside_c);
    widest_c = std::max(widest_c, high.core_c - low.core_c);
    widest_kg = std::max(widest_kg, high.dry_mass_kg - low.dry_mass_kg);
  }
  EXPECT_GT(widest_c, 1.0);
  EXPECT_GT(widest_kg, 1.0);
  const Summary& s = result.summary;
  for (const Banded& one :
       {s.share_3_days_above_55, s.lowest_oxygen_day, s.days_any_below_5_oxygen, s.salt_leached_share,
        s.water_put_on_kg, s.water_evaporated_kg, s.water_drained_kg, s.water_made_kg, s.peak_uptake_g_kg_h}) {
    EXPECT_LE(one.low, one.middle);
    EXPECT_GE(one.high, one.middle);
  }
  EXPECT_GT(s.water_made_kg.high, s.water_made_kg.low);
  EXPECT_FALSE(result.sensitivity.why_none.empty()) << "six runs are too few";
}

}  // namespace
}  // namespace stillheap::forecast
