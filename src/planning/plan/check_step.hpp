#pragma once
#include "planning/site/site.hpp"

namespace stillheap::plan {

/// Everything that a plan can refuse before its forecast: weather, blend, stock, filling, water line, what the engine
/// is asked. Nothing is kept. `make_plan` begins with it, so that checking a site and planning it give one verdict.
/// Throws InputError with every refusal, each with file, line and key.
void check_plan(const site::Site& site);

}  // namespace stillheap::plan
