#pragma once
#include <vector>

#include "model/forecast/ensemble.hpp"

/// The learned values of a member, in standard deviations of their prior.
namespace stillheap::calibrate {

[[nodiscard]] std::vector<double> read_values(const forecast::Member& member, const forecast::Request& request);

/// Learned values as `forecast::member_at` takes them: every input, those not learned 0.
[[nodiscard]] std::vector<double> deviations_of(const std::vector<double>& values);

}  // namespace stillheap::calibrate
