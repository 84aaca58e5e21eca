#pragma once
#include <functional>
#include <string>

#include "model/forecast/checkpoint.hpp"
#include "model/forecast/request.hpp"
#include "model/forecast/result.hpp"

namespace stillheap::forecast {

/// Told now and then how much is done (0..1); returns false to stop at the next step.
using Progress = std::function<bool(double share, const std::string& what)>;

/// Throws InputError for a request that cannot be run; `run` asks it first.
void check(const Request& request);

/// Runs the forecast: the middle line on the asked grid, then an ensemble on the draft grid for the band.
/// The band of every number is the ensemble's 10th and 90th percentile, moved by what the middle line differs
/// from the draft run of the same parameters. Same request, same answer, on any number of threads.
/// Throws InputError for a request that cannot be run, RunError when a balance is off by more than 1e-6.
/// When progress asks to stop, the result holds what was done until then and says so.
/// The ensemble runs on `most_threads` at once; 0: as many as there are processors.
[[nodiscard]] Result run(const Request& request, const Progress& progress, unsigned most_threads = 0);

/// As above, from where `checkpoint` stands (`checkpoint_for(request)`: from filling), which is left where the run
/// stands at its end. A run that was stopped and gone on with, any number of times, gives the result of one that was
/// not, bit for bit. Throws InputError when the checkpoint is another request's.
[[nodiscard]] Result run(const Request& request, const Progress& progress, Checkpoint& checkpoint, const Keeper& keeper,
                         unsigned most_threads = 0);

}  // namespace stillheap::forecast
