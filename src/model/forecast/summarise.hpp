#pragma once
#include <vector>

#include "model/forecast/band.hpp"

namespace stillheap::forecast {

/// Every number of the summary with its band (band.hpp), and the odds. Without members the band has no width.
[[nodiscard]] Summary summarise(const Heap& heap, const Ensemble& ensemble);

/// The band of every column of the history but day and outside air, moved likewise row by row.
void band_history(const Ensemble& ensemble, Result& result);

/// The band of the monthly means, moved likewise.
void band_months(const Ensemble& ensemble, Result& result);

}  // namespace stillheap::forecast
