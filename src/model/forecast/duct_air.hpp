#pragma once
#include "model/forecast/steps.hpp"

/// The channels' air. It is held for seconds only, so at every moment it is what comes in: steady balances, channel by
/// channel, of which those of vapour and heat are exact.
namespace stillheap::forecast {

/// Vapour in every channel's air from that over the rims in `work.vapour`, to the channels' part of `work.vapour`.
void balance_duct_vapour(const Heap& heap, const Coefficients& coefficients, Workspace& work);

/// Temperature of every channel's air from the rims' in `work.unknown` and all vapour in `work.vapour`, to the
/// channels' part of `work.unknown`.
void balance_duct_temperature(const Heap& heap, const Coefficients& coefficients, Workspace& work);

}  // namespace stillheap::forecast
