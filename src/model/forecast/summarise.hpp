#pragma once
#include <vector>

#include "model/forecast/run_history.hpp"

namespace stillheap::forecast {

/// The middle line, the draft run of the same parameters, and the ensemble's runs that came to their end.
struct Ensemble {
  const RunHistory& middle;
  const RunHistory& draft;
  const std::vector<RunHistory>& members;
};

/// Every number of the summary with its band: the members' 10th and 90th percentile, moved by what the middle line
/// differs from the draft run. Without members the band has no width.
[[nodiscard]] Summary summarise(const Heap& heap, const Ensemble& ensemble);

/// The band of every column of the history but day and outside air, moved likewise row by row.
void band_history(const Ensemble& ensemble, Result& result);

/// The band of the monthly means, moved likewise.
void band_months(const Ensemble& ensemble, Result& result);

}  // namespace stillheap::forecast
