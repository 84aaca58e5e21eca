#include "planning/site/parse_toml.hpp"

#include "core/base/error.hpp"
#include "planning/site/outside_quotes.hpp"

namespace stillheap::site {

toml::table parse_toml(const std::filesystem::path& file, const std::string& text) {
  if (const auto stray = find_stray_sign(text)) {
    throw InputError(file.string() + ':' + std::to_string(stray->line),
                     "\"" + std::string(stray->sign) + "\" stands outside quotes",
                     "amounts and texts stand in quotes; names of keys and sections are plain letters");
  }
  try {
    return toml::parse(text, file.string());
  } catch (const toml::parse_error& error) {
    throw InputError(file.string() + ':' + std::to_string(error.source().begin.line), std::string(error.description()),
                     "amounts and texts stand in quotes, a section in brackets, each key once (TOML 1.0)");
  }
}

}  // namespace stillheap::site
