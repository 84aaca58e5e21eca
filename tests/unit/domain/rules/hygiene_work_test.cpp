#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "domain/rules/hygiene.hpp"

/// The sweep against a plain search, and how its work grows.
namespace stillheap::rules {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

/// Plain reference: every temperature that was read and steps of 0.05 K, each over the whole history.
struct Plain {
  bool met = false;
  double met_at_s = no_limit;
  double best_ratio = 0.0;
};
Plain plain_search(const History& history) {
  std::vector<double> levels_c;
  double hottest_c = -no_limit;
  for (const Reading& reading : history) {
    if (reading.celsius >= 50.0) levels_c.push_back(reading.celsius);
    hottest_c = std::max(hottest_c, reading.celsius);
  }
  for (double level_c = 50.0; level_c <= hottest_c; level_c += 0.05) levels_c.push_back(level_c);
  Plain plain;
  for (const double level_c : levels_c) {
    const double asked_s = std::max(required_hold_s(level_c), 1200.0);
    for (const Stretch& hold : stretches_within(history, level_c, no_limit)) {
      plain.best_ratio = std::max(plain.best_ratio, hold.length_s() / asked_s);
      if (hold.length_s() >= asked_s) plain.met_at_s = std::min(plain.met_at_s, hold.begin_s + asked_s);
    }
  }
  plain.met = plain.best_ratio >= 1.0;
  return plain;
}

/// Any walk between cool and hot, with gaps, jumps, plateaus and readings twice at one time.
History random_history(std::mt19937_64& random, int readings) {
  std::uniform_real_distribution<double> share(0.0, 1.0);
  const double middle_c = 44.0 + 22.0 * share(random);
  const double step_k = 0.2 + 6.0 * share(random);
  History history;
  double time_s = 0.0;
  double celsius = middle_c;
  for (int i = 0; i < readings; ++i) {
    const double dice = share(random);
    time_s += dice < 0.02 ? 2.0 * widest_gap_s : dice < 0.06 ? 0.0 : 6.0 * 3600.0 * share(random);
    if (dice < 0.85) celsius += step_k * (share(random) - 0.5) + 0.1 * (middle_c - celsius);
    if (dice > 0.97) celsius = std::round(celsius);
    history.push_back({time_s, celsius});
  }
  return history;
}

TEST(TimeTemperatureSweep, JudgesRandomHistoriesAsAPlainSearchDoes) {
  std::mt19937_64 random(15);
  int met = 0;
  for (int round = 0; round < 1500; ++round) {
    const History history = random_history(random, 5 + round % 60);
    const Plain plain = plain_search(history);
    const Verdict verdict = judge_time_temperature(history, {});
    ASSERT_EQ(verdict.met, plain.met) << "round " << round << ", ratio " << plain.best_ratio;

    if (!verdict.met) continue;
    ++met;
    // The plain search steps by 0.05 K, over which the time asked for changes by 1.6 %.
    ASSERT_LE(*verdict.met_at_s, plain.met_at_s + 1e-3) << "round " << round;
    ASSERT_GE(*verdict.met_at_s, plain.met_at_s - 0.02 * required_hold_s(50.0)) << "round " << round;
  }
  EXPECT_GT(met, 300);
  EXPECT_LT(met, 1200);
}

TEST(TimeTemperatureSweep, FindsTheExactHoldThatStepsMiss) {
  // 53.333 degC for exactly its time: no step of 0.05 K hits it.
  const double asked_s = required_hold_s(53.333);
  History exact;
  for (int i = 0; i <= 20; ++i) exact.push_back({asked_s * i / 20.0 * 1.0000001, 53.333});
  EXPECT_TRUE(judge_time_temperature(exact, {}).met);
  exact.back().time_s = asked_s * 0.9999;
  EXPECT_FALSE(judge_time_temperature(exact, {}).met);
}

/// The other two rules against a plain cut of each stretch out of the whole history.
History plain_cut(const History& history, const Stretch& stretch) {
  History part;
  for (std::size_t i = 0; i + 1 < history.size(); ++i) {
    const Reading& from = history[i];
    const Reading& to = history[i + 1];
    const double begin_s = std::max(from.time_s, stretch.begin_s);
    const double end_s = std::min(to.time_s, stretch.end_s);
    if (end_s < begin_s || from.time_s == to.time_s) continue;
    const double slope = (to.celsius - from.celsius) / (to.time_s - from.time_s);
    part.push_back({begin_s, from.celsius + slope * (begin_s - from.time_s)});
    part.push_back({end_s, from.celsius + slope * (end_s - from.time_s)});
  }
  return part;
}

bool plain_significant_reduction(const History& history) {
  const auto holds = stretches_within(history, 40.0, no_limit);
  return std::any_of(holds.begin(), holds.end(), [&](const Stretch& hold) {
    const auto peak = longest_within(plain_cut(history, hold), 55.0 + 1e-6, no_limit);
    return hold.length_s() >= 5.0 * 86400.0 && peak && peak->length_s() >= 4.0 * 3600.0;
  });
}

bool plain_vector_attraction(const History& history) {
  const auto holds = stretches_within(history, 40.0 + 1e-6, no_limit);
  return std::any_of(holds.begin(), holds.end(), [&](const Stretch& hold) {
    const History part = plain_cut(history, hold);
    double sum = 0.0;
    for (std::size_t i = 1; i < part.size(); ++i)
      sum += 0.5 * (part[i].celsius + part[i - 1].celsius) * (part[i].time_s - part[i - 1].time_s);
    return hold.length_s() >= 14.0 * 86400.0 && sum / hold.length_s() > 45.0;
  });
}

TEST(FurtherRules, JudgeRandomHistoriesAsAPlainCutDoes) {
  std::mt19937_64 random(16);
  int reduced = 0, kept_off = 0;
  for (int round = 0; round < 800; ++round) {
    const History history = random_history(random, 40 + round % 160);
    const bool first = judge_significant_reduction(history).met;
    const bool second = judge_vector_attraction(history).met;
    ASSERT_EQ(first, plain_significant_reduction(history)) << "round " << round;
    ASSERT_EQ(second, plain_vector_attraction(history)) << "round " << round;
    reduced += first ? 1 : 0;
    kept_off += second ? 1 : 0;
  }
  EXPECT_GT(reduced, 50);
  EXPECT_LT(reduced, 750);
  EXPECT_GT(kept_off, 50);
  EXPECT_LT(kept_off, 750);
}

/// What many short holds and many temperatures cost.
std::uint64_t work_of(int readings) {
  std::mt19937_64 random(17);
  std::uniform_real_distribution<double> noise(-12.0, 12.0);
  History history;
  for (int i = 0; i < readings; ++i) history.push_back({900.0 * i, 50.0 + noise(random)});
  const std::uint64_t before = readings_visited;
  static_cast<void>(judge_all(history, {}));
  return readings_visited - before;
}

TEST(Judging, GrowsWithTheReadingsNotWithTheirSquare) {
  const std::uint64_t few = work_of(3200);
  const std::uint64_t many = work_of(32000);
  EXPECT_GT(few, 3200U) << "the work is counted";
  EXPECT_LE(many, 11 * few);
}

}  // namespace
}  // namespace stillheap::rules
