#include "planning/fill/lifting.hpp"

#include <gtest/gtest.h>

namespace stillheap::fill {
namespace {

constexpr Lift best{0.25, 0.75, 0.25, 0.0, 1.0, 1.0};

TEST(Lifting, AllowsTheLoadConstantInTheBestPosture) { EXPECT_NEAR(recommended_weight_limit_kg(best), 23.0, 1e-9); }

TEST(Lifting, NeverAllowsMoreInAnyOtherPosture) {
  for (const double h : {0.1, 0.4, 0.6}) {
    for (const double v : {0.0, 0.5, 1.2}) {
      for (const double d : {0.1, 0.7, 1.5}) {
        for (const double a : {0.0, 1.0})
          EXPECT_LE(recommended_weight_limit_kg({h, v, d, a, 1.0, 1.0}), 23.0 + 1e-9) << h << ' ' << v << ' ' << d;
      }
    }
  }
}

TEST(Lifting, AllowsNothingOutsideTheGuide) {
  EXPECT_EQ(recommended_weight_limit_kg({0.64, 0.75, 0.25, 0.0, 1.0, 1.0}), 0.0);
  EXPECT_EQ(recommended_weight_limit_kg({0.25, 1.76, 0.25, 0.0, 1.0, 1.0}), 0.0);
  EXPECT_EQ(recommended_weight_limit_kg({0.25, 0.75, 1.76, 0.0, 1.0, 1.0}), 0.0);
  EXPECT_EQ(recommended_weight_limit_kg({0.25, 0.75, 0.25, 2.4, 1.0, 1.0}), 0.0);
}

TEST(Lifting, AllowsLessTheOftenerItIsDone) {
  EXPECT_EQ(frequency_factor(0.01), 0.85);
  EXPECT_NEAR(frequency_factor(1.5), 0.70, 1e-12);
  EXPECT_EQ(frequency_factor(8.5), 0.0);
  double before = 1.0;
  for (int i = 0; i < 100; ++i) {
    const double f = 0.1 * i;
    EXPECT_LE(frequency_factor(f), before);
    before = frequency_factor(f);
  }
}

}  // namespace
}  // namespace stillheap::fill
