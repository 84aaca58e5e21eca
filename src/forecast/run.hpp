#pragma once
#include <functional>
#include <string>

#include "forecast/request.hpp"
#include "forecast/result.hpp"

namespace stillheap::forecast {

/// Told now and then how much is done (0..1); returns false to stop at the next step.
using Progress = std::function<bool(double share, const std::string& what)>;

/// Runs the forecast: the middle line on the asked grid, then an ensemble on the draft grid for the band.
/// The band of every number is the ensemble's 10th and 90th percentile, moved by what the middle line differs
/// from the draft run of the same parameters. Same request, same answer, on any number of threads.
/// Throws InputError for a request that cannot be run, RunError when a balance is off by more than 1e-6.
[[nodiscard]] Result run(const Request& request, const Progress& progress);

}  // namespace stillheap::forecast
