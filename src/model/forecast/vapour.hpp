#pragma once
#include <vector>

#include "model/forecast/steps.hpp"

/// The vapour in the heap's air, for the heat step.
namespace stillheap::forecast {

/// Vapour over every cell at the temperatures in `work.unknown`, and its slope by temperature. Where the
/// material is damp rather than wet, water activity and the water left after the step are found together:
/// W = W_0 + dt (in - g a(W) Y_sat).
void set_vapour(const Heap& heap, const Coefficients& coefficients, double dt_s, const State& state, Workspace& work);

}  // namespace stillheap::forecast
