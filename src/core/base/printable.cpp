#include "core/base/printable.hpp"

#include <cstddef>

namespace stillheap {
namespace {

bool continues(unsigned char byte) noexcept { return (byte & 0xC0U) == 0x80U; }

/// Bytes of the sign that begins here; 0 when it is no UTF-8 (RFC 3629) or a control sign.
std::size_t shown_bytes(std::string_view rest) noexcept {
  const auto at = [&](std::size_t i) { return static_cast<unsigned char>(i < rest.size() ? rest[i] : '\0'); };
  const unsigned char first = at(0);
  if (first < 0x80U) return first == '\n' || (first >= 0x20U && first != 0x7fU) ? 1 : 0;
  if (first >= 0xC2U && first <= 0xDFU) {
    const bool is_control = first == 0xC2U && at(1) < 0xA0U;  // U+0080 to U+009F
    return continues(at(1)) && !is_control ? 2 : 0;
  }
  if (first >= 0xE0U && first <= 0xEFU) {
    const bool too_long = first == 0xE0U && at(1) < 0xA0U;
    const bool surrogate = first == 0xEDU && at(1) > 0x9FU;
    return continues(at(1)) && continues(at(2)) && !too_long && !surrogate ? 3 : 0;
  }
  if (first >= 0xF0U && first <= 0xF4U) {
    const bool outside = (first == 0xF0U && at(1) < 0x90U) || (first == 0xF4U && at(1) > 0x8FU);
    return continues(at(1)) && continues(at(2)) && continues(at(3)) && !outside ? 4 : 0;
  }
  return 0;
}

}  // namespace

std::string printable(std::string_view text, std::size_t most) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string made;
  for (std::size_t i = 0; i < text.size();) {
    if (made.size() >= most) return made + " ...";
    const std::size_t bytes = shown_bytes(text.substr(i));
    if (bytes > 0) {
      made += text.substr(i, bytes);
      i += bytes;
    } else {
      const auto byte = static_cast<unsigned char>(text[i++]);
      made += "\\x";
      made += digits[byte >> 4U];
      made += digits[byte & 0x0FU];
    }
  }
  return made;
}

}  // namespace stillheap
