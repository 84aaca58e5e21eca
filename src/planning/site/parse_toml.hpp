#pragma once
#include <filesystem>
#include <string>

#include "planning/site/toml.hpp"

namespace stillheap::site {

/// Parses the text of a site or study file. Throws InputError with file and line when it is no TOML 1.0 or a sign
/// beyond ASCII stands outside quotes.
[[nodiscard]] toml::table parse_toml(const std::filesystem::path& file, const std::string& text);

}  // namespace stillheap::site
