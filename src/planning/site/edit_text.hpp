#pragma once
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// Changes of a site file's text that leave everything else as it was written: comments, order, blank lines.
namespace stillheap::site {

/// One value to be changed.
struct Edit {
  std::string section;               ///< "vessel.channels", "blend"
  std::string block;                 ///< of a repeated section the name of the one meant; else empty
  std::string key;                   ///< "radius"
  std::optional<std::string> value;  ///< as written in a site file; nothing: the line stays as a comment
};

/// The text with the edits made one after the other. A key that is not there goes under its section's heading, a
/// section that is not there behind the one it belongs to. `file` is for messages.
/// Throws InputError when the text is no TOML, or has no such block.
[[nodiscard]] std::string edited(std::string text, std::span<const Edit> edits, const std::filesystem::path& file);

/// The text with the blocks of a repeated section, [[feedstock]], taken out and others put in their place, each the
/// lines below its heading. What is written above the first and below the last stays. `file` is for messages. Throws
/// InputError when the text is no TOML, or has no such block.
[[nodiscard]] std::string with_blocks(const std::string& text, const std::string& section,
                                      std::span<const std::string> blocks, const std::filesystem::path& file);

/// One line of a comparison.
struct DiffLine {
  char sign = ' ';  ///< '-' before, '+' after
  std::string text;
};
/// The lines that differ, in order: those taken out before those put in at the same place.
[[nodiscard]] std::vector<DiffLine> differing_lines(const std::string& before, const std::string& after);

}  // namespace stillheap::site
