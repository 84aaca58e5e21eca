#pragma once
#include <string>

#include "model/forecast/result.hpp"
#include "planning/site/site.hpp"

namespace stillheap::plan {

/// The plan's own request for one design filled on a day (ISO date), on the draft grid: the plan is followed until it
/// asks for a forecast. Throws RunError when it asks for none.
[[nodiscard]] forecast::Request fill_request(site::Site site, const vessel::Design& design,
                                             const std::string& start_date, int days);

}  // namespace stillheap::plan
