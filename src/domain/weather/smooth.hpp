#pragma once
#include <array>
#include <vector>

/// Twelve monthly means turned into 365 daily values that keep those means.
namespace stillheap::weather {

/// Least and most a daily value may be.
struct Bounds {
  double least = 0.0;
  double most = 0.0;
};

/// Daily values d_i = w_i u_i where u is smooth and periodic, and the mean of d over each month equals its normal.
///
/// u is drawn between twelve control values at mid-month (straight lines, then a running mean over 31 days, which
/// rounds the corners); the controls are corrected until the means agree. Where a day's u would leave the bounds,
/// that month is drawn in toward a flat u just so far that it fits, which keeps its mean.
/// Source: the idea of correcting until the mean agrees is that of Rymes & Myers 2001, Solar Energy 71(4), 225-231
/// (from memory); the curve is our own.
/// Shapes: `weights` has 365 values, 0 or more; a month whose weights are all 0 becomes all 0.
[[nodiscard]] std::vector<double> smooth_days(const std::array<double, 12>& normals, const std::vector<double>& weights,
                                              Bounds bounds);

/// The same with every weight 1.
[[nodiscard]] std::vector<double> smooth_days(const std::array<double, 12>& normals, Bounds bounds);

/// Mean of daily values over each month.
[[nodiscard]] std::array<double, 12> monthly_means(const std::vector<double>& days);

}  // namespace stillheap::weather
