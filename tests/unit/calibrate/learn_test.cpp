#include "calibrate/learn.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>

#include "../forecast/sample_request.hpp"
#include "base/error.hpp"
#include "calibrate/learnables.hpp"

namespace stillheap::calibrate {
namespace {

constexpr int learned_days = 21;
constexpr double noise_k = 1.5;  ///< of one reading; the readings are taken to be off by more, LearnOptions

std::vector<CoreReading> flat(int days) {
  std::vector<CoreReading> readings;
  for (int day = 0; day < days; ++day) readings.push_back({day + 0.5, 40.0});
  return readings;
}

TEST(Learn, RefusesTooLittle) {
  EXPECT_TRUE(too_little({}).has_value());
  EXPECT_TRUE(too_little(flat(9)).has_value());
  EXPECT_FALSE(too_little(flat(11)).has_value());
  std::vector<CoreReading> often;
  for (int i = 0; i < 200; ++i) often.push_back({3.0 + i * 0.01, 40.0});
  EXPECT_TRUE(too_little(often).has_value()) << "many readings of two days";
  EXPECT_THROW((void)learn({}, flat(5)), InputError);
}

TEST(Learn, IgnoresReadingsAfterItsLastDay) {
  LearnOptions options;
  options.last_day = 5.0;
  EXPECT_TRUE(too_little(flat(30), options).has_value());
}

TEST(Learnables, ComeBackAsTheyWereWritten) {
  const forecast::Request request = forecast::common_request(30);
  const std::vector<forecast::Member> members = forecast::draw_members(request, 8, 5);
  for (const forecast::Member& member : members) {
    const std::vector<double> values = read_values(member, request);
    ASSERT_EQ(values.size(), learnables().size());
    forecast::Member copy = member;
    write_values(copy, request, values);
    const std::vector<double> again = read_values(copy, request);
    for (std::size_t i = 0; i < values.size(); ++i) {
      EXPECT_LE(std::abs(values[i]), 2.51) << learnables()[i].name;
      EXPECT_NEAR(again[i], values[i], 1e-9) << learnables()[i].name;
    }
  }
}

/// Noisy daily readings of a run.
std::vector<CoreReading> readings_of(const forecast::Track& truth, std::mt19937_64& generator) {
  std::normal_distribution<double> noise(0.0, noise_k);
  std::vector<CoreReading> readings;
  for (const forecast::HistoryRow& row : truth.history) {
    if (row.day < 0.5 || row.day > learned_days + 0.25) continue;
    readings.push_back({row.day, row.core_c + noise(generator)});
  }
  return readings;
}

struct Score {
  int vessels = 0, covered = 0, followed = 0;
  double before_d = 0.0, after_d = 0.0;  ///< sum of errors of the middle of the day of cooling
  double misfit_before_k = 0.0, misfit_after_k = 0.0;
};

struct Setting {
  int vessels = 1, days = 45, start_day_of_year = 110;
  LearnOptions options;
};

/// Vessels with hidden parameters, drawn as the ensemble's are but with another seed: everything is hidden.
Score twin(const Setting& setting) {
  forecast::Request request = forecast::common_request(setting.days);
  request.start_day_of_year = setting.start_day_of_year;
  const Prior prior = draw_prior(request, setting.options);
  const std::vector<forecast::Track> truths =
      forecast::run_members(forecast::draw_members(request, setting.vessels, 77), [](double) { return true; });
  std::mt19937_64 generator(9);
  Score score;
  for (const forecast::Track& truth : truths) {
    const Learned learned = learn(prior, readings_of(truth, generator), setting.options);
    const double day = truth.cool_at_end ? truth.last_warm_day : setting.days;
    const forecast::Banded& before = learned.before.cool_day;
    const forecast::Banded& after = learned.after.cool_day;
    ++score.vessels;
    score.followed += learned.follows ? 1 : 0;
    score.covered += day >= after.low && day <= after.high ? 1 : 0;
    score.before_d += std::abs(before.middle - day);
    score.after_d += std::abs(after.middle - day);
    score.misfit_before_k += learned.before.misfit_k;
    score.misfit_after_k += learned.after.misfit_k;
    std::printf(
        "vessel %d: cools on day %.0f; before %.0f (%.0f to %.0f), after %.0f (%.0f to %.0f); misfit %.1f K, "
        "then %.1f K\n",
        score.vessels, day, before.middle, before.low, before.high, after.middle, after.low, after.high,
        learned.before.misfit_k, learned.after.misfit_k);
    std::fflush(stdout);
  }
  return score;
}

TEST(Twin, FollowsTheReadingsItLearnedFrom) {
  Setting setting;
  setting.options.members = 20;
  const Score score = twin(setting);
  ASSERT_EQ(score.vessels, 1);
  EXPECT_LT(score.misfit_after_k, 0.6 * score.misfit_before_k);
  EXPECT_EQ(score.followed, 1);
}

int wish(const char* name, int otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::atoi(text) : otherwise;
}

// Hours of work, so only by name: TWIN_VESSELS=200 build/release/bin/unit_calibrate --gtest_filter='Twin.Learns*'
// TWIN_DAYS and TWIN_START set the forecast's length and the day of the year of filling.
TEST(Twin, LearnsTheDayOfCoolingFromTheFirstThreeWeeks) {
  Setting setting;
  setting.vessels = wish("TWIN_VESSELS", 0);
  if (setting.vessels == 0) GTEST_SKIP() << "set TWIN_VESSELS";
  setting.days = wish("TWIN_DAYS", 365);
  setting.start_day_of_year = wish("TWIN_START", 110);
  const Score score = twin(setting);
  ASSERT_GT(score.vessels, 0);
  std::printf(
      "%d vessels: %d covered by the 80 %% band; mean error %.1f days before, %.1f after; misfit %.2f K before, "
      "%.2f K after\n",
      score.vessels, score.covered, score.before_d / score.vessels, score.after_d / score.vessels,
      score.misfit_before_k / score.vessels, score.misfit_after_k / score.vessels);
  EXPECT_GE(score.covered, 0.7 * score.vessels);
  EXPECT_LE(score.covered, 0.9 * score.vessels);
  EXPECT_LE(score.after_d, 0.5 * score.before_d);
}

}  // namespace
}  // namespace stillheap::calibrate
