#pragma once
#include <string_view>

namespace stillheap::fuzz {

/// A section's bracket with a comment right behind it. The TOML library (3.3) asserts that this cannot be, where
/// asserts are on (found by the site file's target); without them, as g++ 12 builds the program, it says what is wrong
/// (unit/site).
inline bool asserts_in_the_library(std::string_view text) {
  for (std::size_t at = text.find('['); at != std::string_view::npos; at = text.find('[', at + 1)) {
    const std::size_t next = text.find_first_not_of(" \t[", at);
    if (next != std::string_view::npos && text[next] == '#') return true;
  }
  return false;
}

}  // namespace stillheap::fuzz
