#pragma once
#include "planning/plan/blend_step.hpp"

namespace stillheap::plan {

/// What a plan starts from.
struct Checked {
  weather::Series weather;
  Recipe recipe;
};

/// Everything that a plan can refuse before its forecast: weather, blend, stock, filling, water line, what the engine
/// is asked. `make_plan` begins with it and goes on with what it gives, so that checking a site and planning it give
/// one verdict. Throws InputError with every refusal, each with file, line and key.
Checked check_plan(const site::Site& site);

}  // namespace stillheap::plan
