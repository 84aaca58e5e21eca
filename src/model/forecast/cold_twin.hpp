#pragma once
#include <functional>
#include <vector>

#include "domain/rules/self_heating.hpp"
#include "model/forecast/run_history.hpp"

/// A heap's twin that makes no heat: the same heap in the same weather with decay switched off. What a heap is warmer
/// than its twin is its own heat.
namespace stillheap::forecast {

/// Runs the twin of a request on the draft grid with daily means, once for a vessel: the ensemble shares it. Its
/// members differ in density, moisture and the model's constants, which move a heap without heat only through how
/// slowly it follows the air: less than the 3 K that count (chosen).
[[nodiscard]] std::vector<rules::HeatDay> cold_twin(const Request& request, const std::function<bool(double)>& keep_on);

/// Day by day what stays through the day: the least of the core and of the hottest place among the day's rows, so that
/// sun on the wall at noon is not taken for heat.
[[nodiscard]] std::vector<rules::HeatDay> heat_days(const std::vector<HistoryRow>& history);

/// Notes in a run when it stopped heating by itself.
void note_heat(RunHistory& track, const std::vector<rules::HeatDay>& twin);

}  // namespace stillheap::forecast
