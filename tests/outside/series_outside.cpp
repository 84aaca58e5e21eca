// Learning from the first days of a real heap (records/series.toml): one short run. All windows: series_scores.
#include <gtest/gtest.h>

#include "check.hpp"
#include "series_run.hpp"

namespace stillheap {
namespace {

using namespace records;

constexpr int members = 64;  // a quarter of the product's: seconds

const SeriesRecord& litter() {
  static const Split split = read_split();
  return split.records.front();
}

double mean_of(const std::vector<weather::Hour>& hours, int day, double weather::Hour::*value) {
  double sum = 0.0;
  const int first = 24 * (litter().record.request.start_day_of_year - 1 + day);
  for (int hour = first; hour < first + 24; ++hour) sum += hours.at(static_cast<std::size_t>(hour)).*value / 24.0;
  return sum;
}

TEST(Series, KnowNothingOfTheHeapButItsWeather) {
  ASSERT_EQ(litter().heaps.size(), 128U);
  const forecast::Shift mean = forecast::mean_shift(litter().record.request.blend, litter().heaps);
  const forecast::Shift written = left_out("V11");
  double farthest = 0.0;
  for (std::size_t i = 0; i < mean.size(); ++i) farthest = std::max(farthest, std::abs(mean[i] - written[i]));
  outside::expect("RL1", "farthest_mean", farthest);
  EXPECT_GT(std::abs(forecast::mean_shift(litter().record.request.blend)[0] - mean[0]), 0.01) << "V11 taught something";
  const std::vector<weather::Hour>& hours = litter().record.request.weather.hours;
  outside::expect("RL1", "air_day_5_c", mean_of(hours, 5, &weather::Hour::air_c));
  outside::expect("RL1", "wind_day_7_m_s", mean_of(hours, 7, &weather::Hour::wind_m_s));
  outside::expect("RL1", "rain_day_1_mm", 86400.0 * 1000.0 * mean_of(hours, 1, &weather::Hour::rain_m_s));
}

TEST(Series, SevenDaysNarrowTheRest) {
  static const Split split = read_split();
  calibrate::LearnOptions options = options_for(split, split.records.front());
  options.members = members;
  const SeriesRecord& record = split.records.front();
  const calibrate::Prior prior = calibrate::draw_prior(record.record.request, options);
  const Window one = learn_and_score(record, prior, options, record.series.front(), 7);
  const char* const why =
      "the litter stays too cold at its core and no run comes near the readings, so that the program rightly refuses "
      "to "
      "learn and the band stays as it was; see docs/validation.md";
  EXPECT_FALSE(one.used) << "then these are no misses any more";
  outside::report_miss("RL2", "narrowed_to", one.after.width_k / one.before.width_k, why);
  outside::report_miss("RL2", "cover", one.after.cover, why);
}

}  // namespace
}  // namespace stillheap
