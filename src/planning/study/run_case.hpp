#pragma once
#include <functional>
#include <optional>

#include "planning/study/case_result.hpp"
#include "planning/study/study.hpp"

namespace stillheap::study {

/// Plans and forecasts one case. A case that cannot be or breaks off is a result too. Nothing when `keep_on` said stop.
/// A band of one run is no band: with forecast.members = 1 only the middle line is run.
[[nodiscard]] std::optional<CaseResult> run_case(const Study& study, const Case& one,
                                                 const std::function<bool()>& keep_on,
                                                 const plan::ForecastFunction& forecast = plan::forecast_engine());

}  // namespace stillheap::study
