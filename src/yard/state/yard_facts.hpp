#pragma once
#include <vector>

#include "planning/site/site.hpp"
#include "yard/record/doubt.hpp"

namespace stillheap::yard {

/// What the records are held against: designs and feedstocks of the site file, keys that a rule judges.
[[nodiscard]] record::YardFacts facts_of(const site::Site& site);

/// What a laboratory value is judged by: its key and each unit it may be in, each pair once.
[[nodiscard]] std::vector<record::YardFacts::LabKey> lab_keys();

}  // namespace stillheap::yard
