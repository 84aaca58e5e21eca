#include "core/base/header_unit.hpp"

#include "core/base/delimited.hpp"

namespace stillheap {
namespace {

/// What stands between the last `open` and a `close` at the very end.
std::string_view enclosed(std::string_view text, char open, char close) {
  const std::size_t begin = text.rfind(open);
  if (begin == std::string_view::npos || !text.ends_with(close)) return {};
  return trimmed(text.substr(begin + 1, text.size() - begin - 2));
}

}  // namespace

std::string header_unit(std::string_view header) {
  const std::string_view text = trimmed(header);
  for (const std::string_view pair : {"[]", "()"}) {
    const std::string_view inside = enclosed(text, pair[0], pair[1]);
    if (!inside.empty()) return std::string(inside);
  }
  const std::size_t blank = text.find_last_of(" _");
  if (blank == std::string_view::npos || text.size() - blank <= 2) return {};
  return std::string(text.substr(blank + 1));
}

}  // namespace stillheap
