#pragma once
#include <vector>

#include "model/forecast/ensemble.hpp"

/// The learned values of a member, in standard deviations of their prior.
namespace stillheap::calibrate {

[[nodiscard]] std::vector<double> read_values(const forecast::Member& member, const forecast::Request& request);

}  // namespace stillheap::calibrate
