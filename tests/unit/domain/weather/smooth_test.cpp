#include "domain/weather/smooth.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillheap::weather {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
using Months = std::array<double, 12>;

const Months wavy{-3.1, -1.0, 3.9, 8.8, 13.6, 16.9, 19.2, 18.7, 14.1, 9.0, 3.2, -1.9};
const Months jumpy{0.0, 40.0, 1.0, 3.0, 0.5, 12.0, 0.1, 0.0, 0.0, 25.0, 24.0, 0.2};

void expect_means(const std::vector<double>& days, const Months& normals) {
  const Months means = monthly_means(days);
  for (std::size_t month = 0; month < 12; ++month) EXPECT_NEAR(means[month], normals[month], 1e-10) << month;
}

TEST(SmoothDays, KeepTheMonthlyMeans) {
  expect_means(smooth_days(wavy, {-endless, endless}), wavy);
  expect_means(smooth_days(jumpy, {-endless, endless}), jumpy);
}

TEST(SmoothDays, KeepTheMonthlyMeansInsideBounds) {
  const std::vector<double> days = smooth_days(jumpy, {0.0, 40.0});
  expect_means(days, jumpy);
  EXPECT_GE(*std::min_element(days.begin(), days.end()), 0.0);
  EXPECT_LE(*std::max_element(days.begin(), days.end()), 40.0 + 1e-12);
}

TEST(SmoothDays, KeepTheMonthlyMeansUnderWeights) {
  std::vector<double> weights(365);
  for (std::size_t day = 0; day < 365; ++day) weights[day] = std::max(0.0, std::sin(static_cast<double>(day) / 58.0));
  Months normals = monthly_means(weights);
  for (std::size_t month = 0; month < 12; ++month) normals[month] *= month % 2 == 0 ? 0.4 : 0.6;
  const std::vector<double> days = smooth_days(normals, weights, {0.0, 0.75});
  expect_means(days, normals);
  EXPECT_EQ(days[200], 0.0) << "nothing weighs in July";
}

TEST(SmoothDays, AreSmoothRoundTheYear) {
  const std::vector<double> days = smooth_days(wavy, {-endless, endless});
  double bend = 0.0;
  for (std::size_t day = 0; day < 365; ++day) {
    const double before = days[(day + 364) % 365];
    const double after = days[(day + 1) % 365];
    EXPECT_LT(std::abs(after - days[day]), 0.3);
    bend = std::max(bend, std::abs(before - 2.0 * days[day] + after));
  }
  EXPECT_LT(bend, 0.02);
}

TEST(SmoothDays, OfAFlatYearAreFlat) {
  Months flat{};
  flat.fill(7.5);
  for (const double day : smooth_days(flat, {0.0, 10.0})) EXPECT_NEAR(day, 7.5, 1e-12);
}

}  // namespace
}  // namespace stillheap::weather
