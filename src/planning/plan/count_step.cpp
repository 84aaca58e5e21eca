#include "planning/plan/count_step.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/error.hpp"

namespace stillheap::plan {
namespace {

/// Shares `total` out in the proportions of `weights`, largest remainder first.
std::vector<int> shared_out(int total, const std::vector<int>& weights) {
  const int sum = std::accumulate(weights.begin(), weights.end(), 0);
  std::vector<int> counts;
  counts.reserve(weights.size());
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), 0U);
  for (const int weight : weights) counts.push_back(total * weight / sum);
  const auto remainder = [&](std::size_t i) { return total * weights[i] % sum; };
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return remainder(a) > remainder(b); });
  const int left = total - std::accumulate(counts.begin(), counts.end(), 0);
  for (int i = 0; i < left; ++i) ++counts[order[static_cast<std::size_t>(i)]];
  return counts;
}

}  // namespace

std::vector<int> smallest_set(const std::vector<vessel::Design>& designs) {
  int divisor = 0;
  for (const vessel::Design& design : designs) divisor = std::gcd(divisor, design.count);
  std::vector<int> counts;
  counts.reserve(designs.size());
  for (const vessel::Design& design : designs) counts.push_back(design.count / std::max(divisor, 1));
  return counts;
}

std::vector<int> starting_counts(const site::Site& site) {
  const std::vector<int> set = smallest_set(site.vessels);
  return site.goal.vessels ? shared_out(*site.goal.vessels, set) : set;
}

int sets_for(double wanted_m3, double one_set_m3) {
  if (!(one_set_m3 > 0.0)) {
    throw RunError("goal", "the forecast leaves no finished compost to count with", "shorten the forecast");
  }
  // A whole number asked for exactly must not turn into one more by rounding.
  return std::max(1, static_cast<int>(std::ceil(wanted_m3 / one_set_m3 - 1e-9)));
}

forecast::Banded finished_volume_m3(const std::vector<forecast::Banded>& finished, const std::vector<int>& counts) {
  forecast::Banded sum;
  for (std::size_t i = 0; i < finished.size(); ++i) {
    sum.low += counts[i] * finished[i].low;
    sum.middle += counts[i] * finished[i].middle;
    sum.high += counts[i] * finished[i].high;
  }
  return sum;
}

}  // namespace stillheap::plan
