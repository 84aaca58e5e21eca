#pragma once
#include "planning/site/document.hpp"
#include "planning/site/toml.hpp"

namespace stillheap::site {

/// "vessel.north" when the block has a name, else "vessel.2".
[[nodiscard]] std::string block_path(const std::string& schema, const toml::table& table, std::size_t number);

/// Puts the report's settings into a site file that was parsed and not yet read. Remembers for each value where it
/// stands, so that what is wrong with it is told there. A setting without a place to go becomes a problem.
void put_in(Report& report, toml::table& root);

}  // namespace stillheap::site
