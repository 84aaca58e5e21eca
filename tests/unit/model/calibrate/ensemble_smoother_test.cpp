#include "model/calibrate/ensemble_smoother.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "core/base/error.hpp"

namespace stillheap::calibrate {
namespace {

Vectors standard_normal(std::size_t members, std::size_t values, unsigned seed) {
  std::mt19937_64 generator(seed);
  std::normal_distribution<double> normal;
  Vectors all(members, std::vector<double>(values));
  for (auto& one : all) {
    for (double& value : one) value = normal(generator);
  }
  return all;
}

template <class Of>
Vectors seen(const Vectors& states, Of of) {
  Vectors all;
  for (const auto& one : states) all.push_back({of(one[0])});
  return all;
}

struct Moments {
  double mean = 0.0, variance = 0.0;
};

Moments moments(const Vectors& members, std::size_t at) {
  Moments all;
  const auto count = static_cast<double>(members.size());
  for (const auto& one : members) all.mean += one[at] / count;
  for (const auto& one : members) all.variance += std::pow(one[at] - all.mean, 2) / (count - 1.0);
  return all;
}

// For a linear model and normal errors the answer is known: variance 1 / (1 + g^2/s^2), mean variance g y / s^2. The
// tolerances are three standard errors of the mean and of the variance of as many members as weighing leaves.
TEST(Bridge, FindsTheKnownAnswerOfALinearModelHoweverItIsShared) {
  const double variance = 1.0 / (1.0 + 4.0 / 0.64);
  for (const double share : {0.999, 0.5, 0.01}) {
    const Vectors states = standard_normal(4000, 2, 3);
    SmootherRule rule;
    rule.effective_share = share;
    rule.seed = 11;
    const Smoothed bridged = bridge(states, seen(states, [](double x) { return 2.0 * x; }), {{1.5}, {0.8}}, rule);
    const double effective = std::min(bridged.effective, 4000.0);
    EXPECT_GE(effective, share * 4000.0 * 0.999);
    const Moments first = moments(bridged.states, 0);
    EXPECT_NEAR(first.mean, variance * 2.0 * 1.5 / 0.64, 3.0 * std::sqrt(variance / effective)) << share;
    EXPECT_NEAR(first.variance, variance, 3.0 * variance * std::sqrt(2.0 / effective)) << share;
    const Moments second = moments(bridged.states, 1);
    EXPECT_NEAR(second.mean, 0.0, 3.0 / std::sqrt(effective)) << "what the readings do not turn on stays as it was";
    EXPECT_NEAR(second.variance, 1.0, 3.0 * std::sqrt(2.0 / effective));
  }
}

TEST(Bridge, WeighsAloneWhenEnoughMembersLieNear) {
  const Vectors states = standard_normal(400, 1, 4);
  const Smoothed bridged = bridge(states, seen(states, [](double x) { return x; }), {{0.0}, {2.0}});
  EXPECT_EQ(bridged.weighed, 1.0);
  EXPECT_GT(bridged.effective, 60.0);
}

// The square tells nothing of the sign, and no straight line leads from it to the state: shifting alone learns nothing.
TEST(Bridge, FollowsWhatNoStraightLineCan) {
  const Vectors states = standard_normal(2000, 1, 6);
  const Vectors squares = seen(states, [](double x) { return x * x; });
  const auto share_near_one = [&](double effective_share) {
    SmootherRule rule;
    rule.effective_share = effective_share;
    int near = 0;
    for (const auto& one : bridge(states, squares, {{1.0}, {0.1}}, rule).states) {
      near += std::abs(std::abs(one[0]) - 1.0) < 0.2 ? 1 : 0;
    }
    return near / 2000.0;
  };
  EXPECT_GT(share_near_one(0.05), 0.95);
  EXPECT_LT(share_near_one(0.9999), 0.5);
}

TEST(Bridge, GivesTheSameAnswerAgain) {
  const Vectors states = standard_normal(100, 2, 8);
  const Vectors predictions = seen(states, [](double x) { return x; });
  EXPECT_EQ(bridge(states, predictions, {{2.0}, {0.1}}).states, bridge(states, predictions, {{2.0}, {0.1}}).states);
}

TEST(Bridge, RefusesTooFewMembersAndShapesThatDoNotAgree) {
  const Observed observed{{1.0}, {1.0}};
  EXPECT_THROW((void)bridge({{1.0}, {2.0}}, {{1.0}, {2.0}}, observed), InputError);
  EXPECT_THROW((void)bridge({{1.0}, {2.0}, {3.0}}, {{1.0}, {2.0}}, observed), InputError);
  EXPECT_THROW((void)bridge({{1.0}, {2.0}, {3.0}}, {{1.0}, {2.0}, {3.0, 4.0}}, observed), InputError);
  EXPECT_THROW((void)bridge({}, {}, observed), InputError);
}

TEST(Strange, IsWhatLiesFartherOffThanRunsLieFromOneAnother) {
  const Vectors states = standard_normal(300, 1, 9);
  const Vectors predictions = seen(states, [](double x) { return 10.0 * x; });
  EXPECT_FALSE(is_strange(predictions, {{3.0}, {1.0}}, 1));
  EXPECT_TRUE(is_strange(predictions, {{80.0}, {1.0}}, 1));
}

TEST(SolvePositive, SolvesAndRefusesWhatIsNotPositive) {
  std::vector<double> a = {4.0, 2.0, 2.0, 3.0};
  Vectors x = {{10.0, 8.0}};
  solve_positive(a, 2, x);
  EXPECT_NEAR(x[0][0], 1.75, 1e-12);
  EXPECT_NEAR(x[0][1], 1.5, 1e-12);
  std::vector<double> bad = {1.0, 2.0, 2.0, 1.0};
  Vectors y = {{1.0, 1.0}};
  EXPECT_THROW(solve_positive(bad, 2, y), RunError);
}

}  // namespace
}  // namespace stillheap::calibrate
