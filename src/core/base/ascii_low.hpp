#pragma once
#include <string>
#include <string_view>

namespace stillheap {

/// A to Z in lower case, every other byte as it is, whatever the locale.
[[nodiscard]] constexpr char ascii_low(char c) noexcept {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
[[nodiscard]] std::string ascii_low(std::string_view text);

}  // namespace stillheap
