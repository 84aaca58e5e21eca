#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace stillheap::server {

/// Indices of at most `most` values of a series, in order, that a chart shows like all of them: the lowest and the
/// highest of each run. All when there are no more.
[[nodiscard]] std::vector<std::size_t> thin(std::span<const double> values, std::size_t most);

}  // namespace stillheap::server
