#include "present/server/thin.hpp"

#include <algorithm>
#include <numeric>

namespace stillheap::server {

std::vector<std::size_t> thin(std::span<const double> values, std::size_t most) {
  if (values.size() <= most || most < 2) {
    std::vector<std::size_t> all(values.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return all;
  }
  const std::size_t runs = most / 2;
  std::vector<std::size_t> kept;
  for (std::size_t run = 0; run < runs; ++run) {
    const auto from = values.begin() + static_cast<std::ptrdiff_t>(run * values.size() / runs);
    const auto to = values.begin() + static_cast<std::ptrdiff_t>((run + 1) * values.size() / runs);
    const auto [low, high] = std::minmax_element(from, to);
    kept.push_back(static_cast<std::size_t>(std::min(low, high) - values.begin()));
    if (low != high) kept.push_back(static_cast<std::size_t>(std::max(low, high) - values.begin()));
  }
  return kept;
}

}  // namespace stillheap::server
