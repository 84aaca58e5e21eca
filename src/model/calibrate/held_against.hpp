#pragma once
#include <vector>

#include "model/calibrate/ensemble_smoother.hpp"
#include "model/calibrate/observation.hpp"
#include "model/forecast/result.hpp"

/// What was read, held against what runs say of it. `core_deviation_k` is that of a core reading which does not say its
/// own.
namespace stillheap::calibrate {

using History = std::vector<forecast::HistoryRow>;  ///< of one run, a row a day

[[nodiscard]] constexpr bool is_core(const Observation& one) noexcept { return one.what == Sensed::core_temperature; }

/// Without moisture and oxygen that lie farther from every run than three of their deviations.
[[nodiscard]] std::vector<Observation> without_outliers(const std::vector<Observation>& readings,
                                                        const std::vector<History>& histories, double core_deviation_k);

/// What one place is off the mean of the heap it is off on every day: the readings of moisture, or of oxygen, that do
/// not say their own deviation count together as one.
[[nodiscard]] Observed observed_of(const std::vector<Observation>& readings, double core_deviation_k);

/// One row a run, in the order of the readings.
[[nodiscard]] Vectors predictions_of(const std::vector<History>& histories, const std::vector<Observation>& readings);

}  // namespace stillheap::calibrate
