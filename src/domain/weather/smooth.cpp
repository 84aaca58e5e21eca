#include "domain/weather/smooth.hpp"

#include <algorithm>
#include <cmath>

#include "domain/weather/calendar.hpp"

namespace stillheap::weather {
namespace {

using Months = std::array<double, 12>;
using Shares = std::array<Months, days_per_year>;  // of each control value in each day

std::size_t index(int value) { return static_cast<std::size_t>(value); }

double middle_of(int month) { return first_day_of(month) + 0.5 * month_days[index(month)]; }

/// Straight lines between mid-months: how much each control counts at a time of the year, days.
void add_linear_shares(double day, double weight, Months& shares) {
  int before = 11;
  for (int month = 0; month < 12 && middle_of(month) <= day; ++month) before = month;
  if (day < middle_of(0)) before = 11;
  const int after = (before + 1) % 12;
  double start = middle_of(before);
  if (start > day) start -= days_per_year;
  double end = middle_of(after);
  if (end <= start) end += days_per_year;
  const double share = (day - start) / (end - start);
  shares[index(before)] += weight * (1.0 - share);
  shares[index(after)] += weight * share;
}

Shares curve_shares() {
  constexpr int half_window = 15;  // 31 days: about a month, so corners round off over their own month only
  Shares shares{};
  for (int day = 0; day < days_per_year; ++day) {
    for (int near = -half_window; near <= half_window; ++near) {
      const int other = (day + near + days_per_year) % days_per_year;
      add_linear_shares(other + 0.5, 1.0 / (2 * half_window + 1), shares[index(day)]);
    }
  }
  return shares;
}

std::vector<double> draw(const Shares& shares, const Months& controls) {
  std::vector<double> curve(days_per_year, 0.0);
  for (std::size_t day = 0; day < curve.size(); ++day) {
    for (std::size_t month = 0; month < 12; ++month) curve[day] += shares[day][month] * controls[month];
  }
  return curve;
}

std::vector<double> product(const std::vector<double>& left, const std::vector<double>& right) {
  std::vector<double> all(left.size());
  std::transform(left.begin(), left.end(), right.begin(), all.begin(), [](double a, double b) { return a * b; });
  return all;
}

/// The flat u of each month that alone gives its normal; 0 where nothing weighs.
Months flat_values(const Months& normals, const Months& weight_means) {
  Months flat{};
  for (std::size_t month = 0; month < 12; ++month) {
    flat[month] = weight_means[month] > 0.0 ? normals[month] / weight_means[month] : 0.0;
  }
  return flat;
}

/// Largest share of its wave a month may keep with every day inside the bounds.
double kept_share(const std::vector<double>& curve, int first, int count, double flat, Bounds bounds) {
  double kept = 1.0;
  for (int day = first; day < first + count; ++day) {
    const double wave = curve[index(day)] - flat;
    if (flat + wave > bounds.most) kept = std::min(kept, std::max(0.0, (bounds.most - flat) / wave));
    if (flat + wave < bounds.least) kept = std::min(kept, std::max(0.0, (bounds.least - flat) / wave));
  }
  return kept;
}

void draw_in(std::vector<double>& curve, const Months& flat, Bounds bounds) {
  for (int month = 0; month < 12; ++month) {
    const int first = first_day_of(month);
    const double level = flat[index(month)];
    const double kept = kept_share(curve, first, month_days[index(month)], level, bounds);
    if (kept == 1.0) continue;
    for (int day = first; day < first + month_days[index(month)]; ++day) {
      curve[index(day)] = level + kept * (curve[index(day)] - level);
    }
  }
}

}  // namespace

std::array<double, 12> monthly_means(const std::vector<double>& days) {
  Months means{};
  for (int day = 0; day < days_per_year; ++day) {
    const std::size_t month = index(month_of(day));
    means[month] += days[index(day)] / month_days[month];
  }
  return means;
}

std::vector<double> smooth_days(const std::array<double, 12>& normals, const std::vector<double>& weights,
                                Bounds bounds) {
  const Shares shares = curve_shares();
  const Months weight_means = monthly_means(weights);
  const Months flat = flat_values(normals, weight_means);
  Months controls = flat;
  const double scale = *std::max_element(flat.begin(), flat.end()) - *std::min_element(flat.begin(), flat.end());
  std::vector<double> curve = draw(shares, controls);
  // Each step shrinks the error to two thirds or less, so 120 steps reach rounding.
  for (int step = 0; step < 120; ++step) {
    const Months means = monthly_means(product(weights, curve));
    double worst = 0.0;
    for (std::size_t month = 0; month < 12; ++month) {
      if (weight_means[month] <= 0.0) continue;
      const double lack = (normals[month] - means[month]) / weight_means[month];
      controls[month] += lack;
      worst = std::max(worst, std::abs(lack));
    }
    curve = draw(shares, controls);
    if (worst <= 1e-14 * scale) break;
  }
  draw_in(curve, flat, bounds);
  return product(weights, curve);
}

std::vector<double> smooth_days(const std::array<double, 12>& normals, Bounds bounds) {
  return smooth_days(normals, std::vector<double>(days_per_year, 1.0), bounds);
}

}  // namespace stillheap::weather
