#pragma once
#include "core/base/note.hpp"
#include "model/forecast/request.hpp"

namespace stillheap::forecast {

/// Every simplification of the model and every constant with its spread and source, for the reports.
[[nodiscard]] Assumptions model_notes(const Request& request);

}  // namespace stillheap::forecast
