#pragma once
#include <vector>

#include "yard/record/entries.hpp"

namespace stillheap::server {

/// Few enough points to draw: of each of `most / 2` equal runs the lowest and the highest stay, in order of time, so no
/// peak is lost. Shorter series stay whole.
[[nodiscard]] std::vector<record::Reading> thin(const std::vector<record::Reading>& points, std::size_t most);

}  // namespace stillheap::server
