#pragma once
#include <vector>

#include "forecast/steps.hpp"

/// The vapour in the heap's air and in the channels' air, for the heat step.
namespace stillheap::forecast {

/// Vapour over every cell at the temperatures in `work.unknown`, and its slope by temperature. Where the
/// material is damp rather than wet, water activity and the water left after the step are found together:
/// W = W_0 + dt (in - g a(W) Y_sat).
void set_vapour(const Heap& heap, const Scene& scene, double dt_s, const State& state, Workspace& work);

/// Vapour in every channel's air, balanced exactly with the rims: channels hold next to nothing. Its slope is what
/// it rises by when all of the channel's rim warms by 1 K.
void balance_duct_vapour(const Heap& heap, const Scene& scene, State& state, Workspace& work);

/// Solves one tridiagonal system in place: lower a, diagonal b (used up), upper c, right and answer d of n.
void solve_tridiagonal(const std::vector<double>& a, std::vector<double>& b, const std::vector<double>& c, double* d,
                       int n) noexcept;

}  // namespace stillheap::forecast
