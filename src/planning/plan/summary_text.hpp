#pragma once
#include <string>

#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// The answer in a few lines for the terminal, in the site's units, bands beside every forecast number.
[[nodiscard]] std::string summary_text(const Plan& plan);

}  // namespace stillheap::plan
