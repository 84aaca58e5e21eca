#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// All of a plan that needs no forecast: blend, vessels with loads, parts, fill and water line, cutting, and the
/// warnings of these. Forecasts, calendar, cautions that hang on them, costs and assumptions stay empty, the yard plan
/// too unless its yield and time are given, and where a yearly volume is wanted the counts are those of the smallest
/// set. For drawings, templates and what `check` tells. Throws InputError as make_plan does.
[[nodiscard]] Plan plan_for_sheets(const site::Site& site);

}  // namespace stillheap::plan
