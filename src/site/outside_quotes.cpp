#include "site/outside_quotes.hpp"

#include <algorithm>
#include <cctype>

namespace stillheap::site {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Where a text in quotes that begins at `at` ends: behind its closing quotes, or at the end of the line (of all, where
/// there are three quotes) when there are none.
std::size_t end_of_quotes(std::string_view text, std::size_t at) noexcept {
  const char quote = text[at];
  const std::string_view rest = text.substr(at);
  const bool three = rest.size() >= 3 && rest[1] == quote && rest[2] == quote;
  for (std::size_t i = at + (three ? 3 : 1); i < text.size(); ++i) {
    if (text[i] == '\\' && quote == '"') {
      ++i;
    } else if (!three && text[i] == '\n') {
      return i;
    } else if (text[i] == quote) {
      if (!three) return i + 1;
      if (text.substr(i, 3) == rest.substr(0, 3)) return i + 3;
    }
  }
  return text.size();
}

std::string_view sign_at(std::string_view text, std::size_t at) noexcept {
  std::size_t end = at + 1;
  while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
  return text.substr(at, end - at);
}

int line_of(std::string_view text, std::size_t at) noexcept {
  return static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')) + 1;
}

/// The first place outside quotes and comments that `is_meant`, or the text's end.
template <class IsMeant>
std::size_t find_outside(std::string_view text, const IsMeant& is_meant) noexcept {
  std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  while (at < text.size()) {
    const char c = text[at];
    if (is_meant(at)) return at;
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
    } else if (c == '"' || c == '\'') {
      at = end_of_quotes(text, at);
    } else {
      ++at;
    }
  }
  return text.size();
}

constexpr std::string_view blanks = " \t";

bool begins_its_line(std::string_view text, std::size_t at) noexcept {
  const std::size_t before = text.substr(0, at).find_last_not_of(blanks);
  return before == std::string_view::npos || text[before] == '\n' || text.substr(0, before + 1) == byte_order_mark;
}

bool name_follows(std::string_view text, std::size_t bracket) noexcept {
  const std::size_t second = text.find_first_not_of(blanks, bracket + 1);
  const bool two = second != std::string_view::npos && text[second] == '[';
  const std::size_t at = two ? text.find_first_not_of(blanks, second + 1) : second;
  if (at == std::string_view::npos) return false;
  const auto c = static_cast<unsigned char>(text[at]);
  return std::isalnum(c) != 0 || c == '_' || c == '-' || c == '"' || c == '\'';
}

}  // namespace

std::optional<StraySign> find_stray_sign(std::string_view text) noexcept {
  const std::size_t at =
      find_outside(text, [&](std::size_t i) { return (static_cast<unsigned char>(text[i]) & 0x80U) != 0; });
  if (at == text.size()) return std::nullopt;
  return StraySign{line_of(text, at), sign_at(text, at)};
}

std::optional<int> find_nameless_bracket(std::string_view text) noexcept {
  int depth = 0;  // of lists: on their lines a bracket may stand alone
  const std::size_t at = find_outside(text, [&](std::size_t i) {
    if (text[i] == '[' && depth == 0 && begins_its_line(text, i) && !name_follows(text, i)) return true;
    if (text[i] == '[') ++depth;
    if (text[i] == ']') depth = std::max(0, depth - 1);
    return false;
  });
  if (at == text.size()) return std::nullopt;
  return line_of(text, at);
}

}  // namespace stillheap::site
