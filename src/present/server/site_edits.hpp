#pragma once
#include <vector>

#include "planning/site/edit_text.hpp"
#include "present/server/change.hpp"

namespace stillheap::server {

/// What a change of the planning table changes in the site file, only where it differs from what the site has. An even
/// ring of channels is written as one, any other layout as a list of places. The most water a day has no key there.
/// Throws InputError for a vessel that is not in the site file.
[[nodiscard]] std::vector<site::Edit> edits_of(const site::Site& site, const Change& change);

}  // namespace stillheap::server
