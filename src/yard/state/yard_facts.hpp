#pragma once
#include <vector>

#include "planning/site/site.hpp"
#include "yard/record/doubt.hpp"

namespace stillheap::yard {

/// What the records are held against: designs and feedstocks of the site file, keys that a rule judges.
[[nodiscard]] record::YardFacts facts_of(const site::Site& site);

/// What a laboratory value is judged by: its key and each unit it may be in, each pair once.
[[nodiscard]] std::vector<record::YardFacts::LabKey> lab_keys();

/// Where a temperature changes what a hand does, as the rules, the phases and the worms have it.
struct HeatLimits {
  double fire_c = 0.0;     ///< the rule fire-risk
  double too_hot_c = 0.0;  ///< the rule too-hot
  double hot_c = 0.0;      ///< the phase hot begins
  double warm_c = 0.0;     ///< too warm for worms
};
[[nodiscard]] HeatLimits heat_limits();

}  // namespace stillheap::yard
