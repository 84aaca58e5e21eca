#pragma once
#include <cstdint>
#include <string>

#include "model/forecast/request.hpp"
#include "model/physics/parameters.hpp"

namespace stillheap::sweep {

/// One drawn case: a site file, and what the request made from it is changed by that no site file says.
struct Case {
  std::uint64_t seed = 0;
  int number = 0;
  std::string toml;     ///< valid; ends with comments that say the changes
  int drawn_again = 0;  ///< site files before this one that the reader refused (clashes, sizes that do not fit)
  forecast::Request request;
  weather::Series hourly;  ///< the weather of which the request has the daily means
  physics::Parameters parameters;
};

/// The case of this number, the same whatever was drawn before. Vessels, feedstocks, climates and surfaces over the
/// whole range that a site file may hold, ends included.
[[nodiscard]] Case draw(std::uint64_t seed, int number);

}  // namespace stillheap::sweep
