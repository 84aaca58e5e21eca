#include "present/server/thin.hpp"

#include <algorithm>

namespace stillheap::server {

std::vector<record::Reading> thin(const std::vector<record::Reading>& points, std::size_t most) {
  if (points.size() <= most || most < 2) return points;
  const std::size_t runs = most / 2;
  std::vector<record::Reading> kept;
  for (std::size_t run = 0; run < runs; ++run) {
    const auto from = points.begin() + static_cast<std::ptrdiff_t>(run * points.size() / runs);
    const auto to = points.begin() + static_cast<std::ptrdiff_t>((run + 1) * points.size() / runs);
    const auto [low, high] =
        std::minmax_element(from, to, [](const auto& a, const auto& b) { return a.value < b.value; });
    kept.push_back(*std::min(low, high));
    if (low != high) kept.push_back(*std::max(low, high));
  }
  return kept;
}

}  // namespace stillheap::server
