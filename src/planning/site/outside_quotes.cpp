#include "planning/site/outside_quotes.hpp"

#include <algorithm>

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

}  // namespace

std::optional<StraySign> find_stray_sign(std::string_view text) noexcept {
  std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  while (at < text.size()) {
    const char c = text[at];
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
    } else if (c == '"' || c == '\'') {
      at = end_of_quotes(text, at);
    } else if ((static_cast<unsigned char>(c) & 0x80U) != 0) {
      const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n') + 1;
      return StraySign{static_cast<int>(line), sign_at(text, at)};
    } else {
      ++at;
    }
  }
  return std::nullopt;
}

std::optional<int> find_too_deep(std::string_view text) noexcept {
  int dots = 0;
  int open = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
      continue;
    }
    if (c == '"' || c == '\'') {
      at = end_of_quotes(text, at);
      continue;
    }
    if (c == '[' || c == '{') ++open;
    if (c == ']' || c == '}') open = std::max(0, open - 1);
    if (c == '.') ++dots;
    if (c == '\n' || c == ',' || c == '=' || c == '[' || c == '{') dots = 0;
    if (dots > most_levels || open > most_levels) {
      return static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n') + 1);
    }
    ++at;
  }
  return std::nullopt;
}

}  // namespace stillheap::site
