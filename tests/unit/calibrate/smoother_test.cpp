#include "calibrate/smoother.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/error.hpp"

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

// For a linear model and normal errors the answer is known: variance 1 / (1 + g^2/s^2), mean variance g y / s^2.
TEST(Smoother, FindsTheKnownAnswerOfALinearModel) {
  for (const int times : {1, 4}) {
    Vectors members = standard_normal(4000, 2, 3);
    const auto predict = [](const Vectors& now) {
      Vectors all;
      for (const auto& one : now) all.push_back({2.0 * one[0]});
      return all;
    };
    smooth(members, predict, {{1.5}, {0.8}}, times, 100.0, 11);
    const double variance = 1.0 / (1.0 + 4.0 / 0.64);
    const Moments first = moments(members, 0);
    EXPECT_NEAR(first.mean, variance * 2.0 * 1.5 / 0.64, 0.03) << times;
    EXPECT_NEAR(first.variance, variance, 0.02) << times;
    const Moments second = moments(members, 1);
    EXPECT_NEAR(second.mean, 0.0, 0.06) << "what the readings do not turn on stays as it was";
    EXPECT_NEAR(second.variance, 1.0, 0.08);
  }
}

TEST(Smoother, LeavesAMemberWhoseRunFailed) {
  Vectors members = standard_normal(10, 1, 5);
  const Vectors before = members;
  Vectors predictions;
  for (const auto& one : members) predictions.push_back({one[0]});
  predictions[4].clear();
  assimilate(members, predictions, {{2.0}, {0.5}}, 1.0, 1);
  EXPECT_EQ(members[4], before[4]);
  EXPECT_NE(members[3], before[3]);
}

TEST(Smoother, RefusesWhatDoesNotMatch) {
  Vectors members = standard_normal(5, 1, 5);
  EXPECT_THROW(assimilate(members, Vectors(5, {1.0, 2.0}), {{2.0}, {0.5}}, 1.0, 1), InputError);
  EXPECT_THROW(assimilate(members, Vectors(5), {{2.0}, {0.5}}, 1.0, 1), InputError) << "nobody predicts";
}

TEST(Smoother, KeepsParametersWithinTheirBound) {
  Vectors members = standard_normal(50, 1, 5);
  smooth(
      members, [](const Vectors& now) { return now; }, {{30.0}, {0.1}}, 4, 2.5, 1);
  for (const auto& one : members) EXPECT_LE(std::abs(one[0]), 2.5);
}

TEST(Solve, InvertsAPositiveMatrix) {
  std::vector<double> a = {4.0, 2.0, 2.0, 3.0};
  Vectors x = {{8.0, 7.0}};
  solve_positive(a, 2, x);
  EXPECT_NEAR(x[0][0], 1.25, 1e-12);
  EXPECT_NEAR(x[0][1], 1.5, 1e-12);
  std::vector<double> bad = {1.0, 2.0, 2.0, 1.0};
  EXPECT_THROW(solve_positive(bad, 2, x), RunError);
}

}  // namespace
}  // namespace stillheap::calibrate
