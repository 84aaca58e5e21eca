#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "../forecast/sample_request.hpp"
#include "model/calibrate/learn.hpp"
#include "model/forecast/stages.hpp"

/// Courses after learning are mixed from runs. A forecast that starts from what was learned is a run, and must follow
/// too.
namespace stillheap::calibrate {
namespace {

constexpr int days = 32;

Course run_of(const forecast::Member& member) {
  return course_of(*forecast::run_members({member}, [](double) { return true; }).data(), days);
}

double misfit_k(const Course& course, const std::vector<CoreReading>& readings) {
  double square = 0.0;
  for (const CoreReading& one : readings) {
    const auto day = static_cast<std::size_t>(one.day);
    const double core = course[day] + (course[day + 1] - course[day]) * (one.day - std::floor(one.day));
    square += std::pow(one.celsius - core, 2);
  }
  return std::sqrt(square / static_cast<double>(readings.size()));
}

TEST(Follow, ARunFromWhatWasLearnedFollowsTheReadingsAndTheDaysAfter) {
  const forecast::Request request = forecast::common_request(days);
  LearnOptions options;
  options.members = 64;
  std::mt19937_64 generator(7);
  std::normal_distribution<double> noise(0.0, 1.5);
  double later_before_k = 0.0, later_after_k = 0.0;
  for (const std::size_t hidden : {3U, 11U}) {
    const Course truth =
        run_of(forecast::draw_members(forecast::on_grid(request, forecast::Grid::draft), 32, 99)[hidden]);
    std::vector<CoreReading> readings, later;
    for (int day = 0; day < days; ++day) {
      const double core = 0.5 * (truth[static_cast<std::size_t>(day)] + truth[static_cast<std::size_t>(day) + 1]);
      (day < 20 ? readings : later).push_back({day + 0.5, core + (day < 20 ? noise(generator) : 0.0)});
    }
    const Learned learned = teach(request, readings, options);
    forecast::Request follows = forecast::on_grid(request, forecast::Grid::draft);
    const Course before = run_of(forecast::middle_member(follows));
    follows.own = learned.own;
    const Course after = run_of(forecast::middle_member(follows));
    EXPECT_EQ(learned.own.draws.size(), most_draws);
    EXPECT_NEAR(learned.own.misfit_k, misfit_k(after, readings), 1e-6);
    EXPECT_LT(misfit_k(after, readings), 3.0) << hidden;  // 1.5 times what a reading may be off
    later_before_k += misfit_k(before, later) / 2.0;
    later_after_k += misfit_k(after, later) / 2.0;
  }
  EXPECT_LT(later_after_k, 0.5 * later_before_k) << "issue 19: the days after the readings too";
}

TEST(Follow, AHeapThatTheModelCannotFollowMovesNoForecast) {
  const forecast::Request request = forecast::common_request(days);
  LearnOptions options;
  options.members = 32;
  std::vector<CoreReading> readings;
  for (int day = 0; day < 20; ++day) readings.push_back({day + 0.5, day % 2 == 0 ? 20.0 : 65.0});
  const Learned learned = teach(request, readings, options);
  EXPECT_FALSE(learned.follows);
  EXPECT_TRUE(learned.own.draws.empty());
}

/// No draw of the prior lies near these readings: one straight step from it does not reach them.
TEST(Follow, AHeapFarHotterThanForecastIsFollowedToo) {
  forecast::Request request = forecast::common_request(30);
  request.start_day_of_year = 263;
  LearnOptions options;
  options.members = 64;
  std::vector<CoreReading> readings;
  for (int day = 0; day < 26; ++day) {
    const double heat_k = 53.0 * (1.0 - std::exp(-(day + 1) / 2.0)) * std::exp(-std::max(0, day - 8) / 30.0);
    readings.push_back({day + 0.96, 15.0 + heat_k});
  }
  const Learned learned = teach(request, readings, options);
  EXPECT_GT(learned.before.misfit_k, 15.0);
  EXPECT_LT(learned.own.misfit_k, 3.0);
  EXPECT_EQ(learned.own.draws.size(), most_draws);
}

}  // namespace
}  // namespace stillheap::calibrate
