#include "planning/site/parse_toml.hpp"

#include "core/base/error.hpp"
#include "planning/site/outside_quotes.hpp"

namespace stillheap::site {

namespace {

constexpr std::size_t most_bytes = 4U << 20U;  // chosen: a thousand times a usual file

void refuse_oversized(const std::filesystem::path& file, const std::string& text) {
  if (text.size() > most_bytes) {
    throw InputError(file.string(), "holds " + std::to_string(text.size() >> 20U) + " MB",
                     "a file of this kind holds at most " + std::to_string(most_bytes >> 20U) + " MB of text");
  }
  if (const auto line = find_too_deep(text)) {
    throw InputError(
        file.string() + ':' + std::to_string(*line), "nests names or brackets too deep",
        "at most " + std::to_string(most_levels) + " levels; sections and keys are those of docs/site-file.md");
  }
}

}  // namespace

toml::table parse_toml(const std::filesystem::path& file, const std::string& text) {
  refuse_oversized(file, text);
  if (const auto stray = find_stray_sign(text)) {
    throw InputError(file.string() + ':' + std::to_string(stray->line),
                     "\"" + std::string(stray->sign) + "\" stands outside quotes",
                     "amounts and texts stand in quotes; names of keys and sections are plain letters");
  }
  try {
    return toml::parse(text, file.string());
  } catch (const toml::parse_error& error) {
    const std::string where = file.string() + ':' + std::to_string(error.source().begin.line);
    // the library's own words speak of its parser
    if (error.description().find("parsing date") != std::string_view::npos) {
      throw InputError(where, "holds a date that no calendar has",
                       "write a day as 2026-03-14: year, month 01 to 12, day 01 to 31");
    }
    throw InputError(where, std::string(error.description()),
                     "amounts and texts stand in quotes, a section in brackets, each key once (TOML 1.0)");
  }
}

}  // namespace stillheap::site
