#include <algorithm>
#include <cmath>
#include <numeric>

#include "planning/water/line.hpp"

namespace stillheap::water {
namespace {

double mean_of_lowest(const std::vector<double>& sorted, std::size_t count) {
  const auto end = sorted.begin() + static_cast<std::ptrdiff_t>(count);
  return std::accumulate(sorted.begin(), end, 0.0) / static_cast<double>(count);
}

double low_share_uniformity(std::vector<double> catches, std::size_t parts) {
  if (catches.empty()) return 0.0;
  std::sort(catches.begin(), catches.end());
  const double mean = mean_of_lowest(catches, catches.size());
  if (mean <= 0.0) return 0.0;
  return mean_of_lowest(catches, (catches.size() + parts - 1) / parts) / mean;
}

}  // namespace

double christiansen_f(int outlets, double flow_exponent) noexcept {
  double sum = 0.0;
  for (int outlet = 1; outlet <= outlets; ++outlet) sum += std::pow(outlet, flow_exponent);
  return sum / std::pow(outlets, flow_exponent + 1.0);
}

double christiansen_uniformity(const std::vector<double>& catches) {
  if (catches.empty()) return 0.0;
  const double mean = mean_of_lowest(catches, catches.size());
  if (mean <= 0.0) return 0.0;
  double deviation = 0.0;
  for (const double one : catches) deviation += std::abs(one - mean);
  return 1.0 - deviation / static_cast<double>(catches.size()) / mean;
}

double low_quarter_uniformity(std::vector<double> catches) { return low_share_uniformity(std::move(catches), 4); }

double low_half_uniformity(std::vector<double> catches) { return low_share_uniformity(std::move(catches), 2); }

}  // namespace stillheap::water
