#pragma once
#include "planning/site/document.hpp"
#include "planning/site/toml.hpp"

namespace stillheap::site {

/// Reads one value as its row says; what is wrong goes to the report and leaves `good` false.
[[nodiscard]] Value read_value(Report& report, const Key& key, const std::string& path, const toml::node& node);

/// The default of a row; not `good` when it has none.
[[nodiscard]] Value default_value(const Key& key);

/// A value as it stands in the file, shortened for a message.
[[nodiscard]] std::string written_text(const toml::node& node);

}  // namespace stillheap::site
