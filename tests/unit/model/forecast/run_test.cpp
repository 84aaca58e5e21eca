#include "model/forecast/run.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/base/error.hpp"
#include "model/forecast/stepper.hpp"
#include "sample_request.hpp"

namespace stillheap::forecast {
namespace {

bool go_on(double, const std::string&) { return true; }

TEST(MonthAt, FollowsTheCalendarAndWraps) {
  Request request;
  request.start_day_of_year = 1;
  EXPECT_EQ(month_at(request, 0.0), 0);
  EXPECT_EQ(month_at(request, 30.9 * 86400.0), 0);
  EXPECT_EQ(month_at(request, 31.0 * 86400.0), 1);
  EXPECT_EQ(month_at(request, 364.5 * 86400.0), 11);
  EXPECT_EQ(month_at(request, 365.0 * 86400.0), 0);
  request.start_day_of_year = 365;
  EXPECT_EQ(month_at(request, 0.0), 11);
  EXPECT_EQ(month_at(request, 86400.0), 0);
}

TEST(Run, RefusesWhatCannotBeRun) {
  Request request = common_request(0);
  EXPECT_THROW((void)run(request, go_on), InputError);
  request.days = 541;
  EXPECT_THROW((void)run(request, go_on), InputError);
  request = common_request(5);
  request.weather.hours.clear();
  EXPECT_THROW((void)run(request, go_on), InputError);
  request = common_request(5);
  request.blend.free_air_space = 0.0;
  EXPECT_THROW((void)run(request, go_on), InputError);
}

TEST(Run, GivesTheSameAnswerAgainWithABandAroundIt) {
  Request request = common_request(6);
  request.members = 4;
  const Result a = run(request, go_on), b = run(request, go_on);
  EXPECT_EQ(a.members, 4);
  EXPECT_EQ(a.summary.peak_temperature_c.middle, b.summary.peak_temperature_c.middle);
  EXPECT_EQ(a.summary.peak_temperature_c.high, b.summary.peak_temperature_c.high);
  EXPECT_EQ(a.summary.solids_lost.low, b.summary.solids_lost.low);
  for (const Banded& value : {a.summary.peak_temperature_c, a.summary.solids_lost, a.summary.finished_mass_kg}) {
    EXPECT_LE(value.low, value.middle);
    EXPECT_GE(value.high, value.middle);
    EXPECT_LT(value.low, value.high);
  }
  request.seed = 2;
  EXPECT_NE(run(request, go_on).summary.solids_lost.low, a.summary.solids_lost.low);
}

TEST(Run, WritesARowADayAndSaysWhatWasSolved) {
  const Result result = run(common_request(6), go_on);
  ASSERT_EQ(result.history.size(), 7U);
  for (std::size_t d = 0; d < 7; ++d) EXPECT_NEAR(result.history[d].day, static_cast<double>(d), 1e-3);
  EXPECT_EQ(result.cells_full, 10 * result.cells_solved);
  EXPECT_FALSE(result.assumptions.empty());
  EXPECT_FALSE(result.stopped.has_value());
}

TEST(Run, StopsWhenAskedAndSaysSo) {
  const Result result = run(common_request(30), [](double share, const std::string&) { return share < 0.3; });
  EXPECT_TRUE(result.stopped.has_value());
  EXPECT_LT(result.history.back().day, 15.0);
}

TEST(Run, DriesMoreWithoutSprinklingThanWithIt) {
  Request request = common_request(30);
  const double watered = run(request, go_on).summary.mean_moisture_end_wet.middle;
  request.sprinkling.automatic = false;
  for (weather::Hour& hour : request.weather.hours) hour.rain_m_s = 0.0;
  EXPECT_LT(run(request, go_on).summary.mean_moisture_end_wet.middle, watered - 0.01);
}

TEST(Run, SprinklesExactlyWhatTheScheduleBrings) {
  Request request = common_request(20);
  request.sprinkling.automatic = false;
  request.sprinkling.kg_by_day = {0.0, 12.0, 0.0, 0.0, 7.5, 0.25, 0.0, 31.0};  // dry after day 8
  double sum_kg = 0.0;
  for (const double kg : request.sprinkling.kg_by_day) sum_kg += kg;
  const Result result = run(request, go_on);
  EXPECT_NEAR(result.summary.water_sprinkled_kg.middle, sum_kg, 1e-9 * sum_kg);
  ASSERT_EQ(result.history.size(), 21U);
  EXPECT_NEAR(result.history[2].sprinkled_kg_day, 12.0, 1e-6) << "the second day";
  EXPECT_NEAR(result.history[3].sprinkled_kg_day, 0.0, 1e-9);
  EXPECT_NEAR(result.history[8].sprinkled_kg_day, 31.0, 1e-6);
  EXPECT_NEAR(result.history[12].sprinkled_kg_day, 0.0, 1e-12);
}

TEST(Run, SharesADaysWaterBetweenItsSteps) {
  const Sprinkling sprinkling{{6.0, 24.0}, 0.0, false, 0.0};
  EXPECT_NEAR(scheduled_kg(sprinkling, 0.0, 86400.0), 6.0, 1e-12);
  EXPECT_NEAR(scheduled_kg(sprinkling, 43200.0, 90000.0), 3.0 + 1.0, 1e-12);
  EXPECT_EQ(scheduled_kg(sprinkling, 2 * 86400.0, 9 * 86400.0), 0.0);
}

TEST(Run, FindsLessOxygenWhenTheBaseIsShut) {
  Request request = common_request(10);
  request.start_day_of_year = 180;
  const double open = run(request, go_on).summary.lowest_oxygen.middle;
  request.design.base_open = false;
  const Result shut = run(request, go_on);
  EXPECT_FALSE(shut.stopped.has_value());
  EXPECT_LT(shut.summary.lowest_oxygen.middle, open);
}

// ---- a seeded sweep -------------------------------------------------------------------------------------------

Request any_request(std::mt19937& generator) {
  const auto pick = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(generator);
  };
  Request request = common_request(60);
  const bool round = pick(0.0, 1.0) < 0.6;
  const double height_m = pick(0.7, 1.6);
  request.design = round ? plain_round(pick(0.9, 1.6), height_m) : plain_box(pick(1.0, 2.2), pick(0.8, 1.4), height_m);
  const double pipe_m = pick(0.06, 0.12);
  const double half_m = 0.5 * (round ? request.design.diameter_m : request.design.width_m);
  const int channels = static_cast<int>(pick(0.0, 6.99));
  for (int k = 0; k < channels; ++k) {
    const double angle = 6.283185307 * k / channels;
    request.design.channels.push_back({{0.55 * half_m * std::cos(angle), 0.55 * half_m * std::sin(angle)}, pipe_m});
  }
  request.design.wall = pick(0.0, 1.0) < 0.8 ? vessel::Wall::open : vessel::Wall::closed;
  request.design.base_open = pick(0.0, 1.0) < 0.8;
  request.blend = blend_of({{"wood-chips", pick(0.1, 0.4)},
                            {"leaves", pick(0.1, 0.5)},
                            {"horse-manure", pick(0.1, 0.5)},
                            {"food-scraps", pick(0.0, 0.3)}},
                           pick(0.50, 0.70));
  request.start_day_of_year = 1 + static_cast<int>(pick(0.0, 364.99));
  request.fill_temperature_c = pick(1.0, 30.0);
  request.surfaces.base_blocked_share = pick(0.0, 1.0) < 0.3 ? pick(0.0, 1.0) : 0.0;
  const double shift_c = pick(-25.0, 15.0);
  for (weather::Hour& hour : request.weather.hours) hour.air_c += shift_c;
  return request;
}

class Sweep : public testing::TestWithParam<unsigned> {};

TEST_P(Sweep, StaysPhysicalForSixtyDays) {
  std::mt19937 generator(GetParam());
  const Request request = any_request(generator);
  double coldest_air_c = 100.0;
  for (const weather::Hour& hour : request.weather.hours) coldest_air_c = std::min(coldest_air_c, hour.air_c);
  const Result result = run(request, go_on);
  EXPECT_FALSE(result.stopped.has_value()) << *result.stopped;
  for (const HistoryRow& row : result.history) {
    ASSERT_TRUE(std::isfinite(row.mean_c + row.core_c + row.mean_oxygen + row.mean_moisture_wet + row.height_m));
    // The sky and evaporation cool a face a few kelvin below the air.
    EXPECT_GT(row.coldest_c, std::min(coldest_air_c, request.fill_temperature_c) - 6.0) << row.day;
    EXPECT_LT(row.hottest_c, 90.0) << row.day;
    EXPECT_GE(row.lowest_oxygen, 0.0) << row.day;
    EXPECT_LE(row.mean_oxygen, 0.2095) << row.day;
    EXPECT_GT(row.mean_moisture_wet, 0.0) << row.day;
    EXPECT_LT(row.mean_moisture_wet, 0.95) << row.day;
    EXPECT_GT(row.height_m, 0.1) << row.day;
  }
  const Conservation& c = result.summary.conservation;
  for (const auto& [name, error] : {std::pair{"solids", c.solids},
                                    {"oxygen", c.oxygen},
                                    {"water", c.water},
                                    {"energy", c.energy},
                                    {"salt", c.salt},
                                    {"dry air", c.dry_air}})
    EXPECT_LT(error, 1e-6) << name;
}

INSTANTIATE_TEST_SUITE_P(Seeds, Sweep, testing::Range(1U, 11U));

}  // namespace
}  // namespace stillheap::forecast
