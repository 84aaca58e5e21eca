#include "planning/site/key.hpp"
#include "planning/site/site.hpp"

namespace stillheap::site {
namespace {

constexpr std::string_view opening = R"(# The site file

Written by `stillheap reference` from the table the reader itself uses; do not edit by hand.

A site file is TOML 1.0. Sections stand in brackets, `[[feedstock]]` and `[[vessel]]` in two because there may be
several; a section such as `[vessel.channels]` belongs to the block above it. Keys that are not listed here are
refused. Every problem of a file is told at once, with file, line, key, value and what is allowed, and nothing is
written until the file is clean. Every default that was used is listed in the reports, with its source.

Amounts are texts with a unit. Metric and US customary units may be mixed. Lengths, volumes, masses and times may be
sums (`"12 ft 6 in"`, `"1 h 30 min"`), numbers may be fractions (`"1/32 in"`, `"6 1/2 in"`). Prices say what they are
for: `"40 per t"`, `"9.50 each"`. `gal` is the US liquid gallon; `oz` and `lb` are avoirdupois. Only shares may stand
without a unit, and then from 0 to 1. Other units that UDUNITS-2 knows (`acre`, `dm3`) are understood too.
)";

void add_units(std::string& text) {
  text += "\n## Units\n\n| kind | example | units |\n|---|---|---|\n";
  for (int i = 0; i <= static_cast<int>(Dimension::rate); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    text += "| " + quantity::noun(dimension) + " | `\"" + quantity::example(dimension) + "\"` | " +
            quantity::accepted_units(dimension) + " |\n";
  }
}

/// A bar would end the cell of a table.
std::string cell(std::string text) {
  for (std::size_t at = text.find('|'); at != std::string::npos; at = text.find('|', at + 2))
    text.replace(at, 1, "\\|");
  return text;
}

std::string default_text(const Key& key) {
  switch (key.need) {
    case Need::required:
      return "needed";
    case Need::optional:
      return "may be left out";
    case Need::has_default:
      return "`" + std::string(key.standard) + "` (" + std::string(key.source) + ")";
    case Need::worked_out:
      return std::string(key.standard) + " (" + std::string(key.source) + ")";
  }
  return {};
}

void add_key(std::string& text, const Key& key) {
  const std::string allowed = allowed_text(key);
  text += "| `" + std::string(key.name) + "` | " + cell(form_text(key)) + (allowed.empty() ? "" : "; " + allowed) +
          " | " + cell(default_text(key)) + " | " + cell(std::string(key.help)) + " |\n";
}

void add_section(std::string& text, const SectionKey& section) {
  const std::string name =
      section.repeated ? "[[" + std::string(section.path) + "]]" : '[' + std::string(section.path) + ']';
  text += "\n## `" + name + "`\n\n" + std::string(section.help) + (section.required ? " Needed." : "") +
          "\n\n| key | written as; allowed | left out | what it is |\n|---|---|---|---|\n";
  for (const std::span<const Key> keys : all_keys()) {
    for (const Key& key : keys) {
      if (key.section == section.path) add_key(text, key);
    }
  }
}

}  // namespace

std::string reference_markdown() {
  std::string text(opening);
  add_units(text);
  for (const SectionKey& section : sections()) add_section(text, section);
  return text;
}

}  // namespace stillheap::site
