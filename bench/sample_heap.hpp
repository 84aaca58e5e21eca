#pragma once
#include "model/forecast/request.hpp"

namespace stillheap::bench {

/// An invented round vessel with seven channels, a manure-rich blend and a temperate year.
[[nodiscard]] forecast::Request request_of(forecast::Grid grid, int days);

}  // namespace stillheap::bench
