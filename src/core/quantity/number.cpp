#include "core/quantity/number.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace stillheap::quantity {
namespace {

constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }

/// Takes an unsigned whole number off the front.
std::optional<double> take_whole(std::string_view& rest) {
  std::size_t size = 0;
  while (size < rest.size() && is_digit(rest[size])) ++size;
  double value = 0.0;
  const auto [end, failure] = std::from_chars(rest.data(), rest.data() + size, value);
  if (size == 0 || failure != std::errc{}) return std::nullopt;
  rest.remove_prefix(size);
  return value;
}

/// Takes "1/2" off the front.
std::optional<double> take_fraction(std::string_view& rest) {
  std::string_view ahead = rest;
  const std::optional<double> above = take_whole(ahead);
  if (!above || ahead.empty() || ahead.front() != '/') return std::nullopt;
  ahead.remove_prefix(1);
  const std::optional<double> below = take_whole(ahead);
  if (!below || *below == 0.0) return std::nullopt;
  rest = ahead;
  return *above / *below;
}

/// Takes "0.5", ".5" or "1e-3" off the front; not "inf", not "nan", no sign.
std::optional<double> take_decimal(std::string_view& rest) {
  const bool starts = !rest.empty() && (is_digit(rest[0]) || (rest.size() > 1 && rest[0] == '.' && is_digit(rest[1])));
  if (!starts) return std::nullopt;
  double value = 0.0;
  const auto [end, failure] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (failure != std::errc{}) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  return value;
}

/// Takes "1/32", "6 1/2" or a decimal off the front.
std::optional<double> take_number(std::string_view& rest) {
  if (const std::optional<double> fraction = take_fraction(rest)) return fraction;
  const std::optional<double> value = take_decimal(rest);
  const bool division_by_nothing = value && rest.size() > 1 && rest[0] == '/' && is_digit(rest[1]);
  if (division_by_nothing) return std::nullopt;
  if (!value || *value != std::floor(*value)) return value;
  std::string_view ahead = rest;
  if (ahead.size() < 2 || ahead.front() != ' ') return value;
  ahead.remove_prefix(1);
  const std::optional<double> fraction = take_fraction(ahead);
  if (!fraction) return value;
  rest = ahead;
  return *value + *fraction;
}

/// The unit text runs to the end or to a blank before the next number.
std::string take_unit(std::string_view& rest) {
  if (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  std::size_t size = 0;
  while (size < rest.size() && !(rest[size] == ' ' && size + 1 < rest.size() && is_digit(rest[size + 1]))) ++size;
  std::string unit(rest.substr(0, size));
  rest.remove_prefix(size < rest.size() ? size + 1 : size);
  return unit;
}

}  // namespace

std::string plain_spelling(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 6> same{
      {{"\u00b0", "deg"}, {"\u00b2", "2"}, {"\u00b3", "3"}, {"\u00b5", "u"}, {"\u03bc", "u"}, {"\u2212", "-"}}};
  std::string plain;
  for (std::size_t at = 0; at < text.size();) {
    bool replaced = false;
    for (const auto& [sign, spelling] : same) {
      if (text.substr(at, sign.size()) != sign) continue;
      plain += spelling;
      at += sign.size();
      replaced = true;
    }
    if (replaced || at >= text.size()) continue;
    const bool blank = text[at] == ' ' || text[at] == '\t';
    if (!blank) plain += text[at];
    if (blank && !plain.empty() && plain.back() != ' ') plain += ' ';
    ++at;
  }
  while (!plain.empty() && plain.back() == ' ') plain.pop_back();
  return plain;
}

std::optional<std::vector<WrittenPart>> split_parts(std::string_view text) {
  const bool negative = !text.empty() && text.front() == '-';
  if (!text.empty() && (negative || text.front() == '+')) text.remove_prefix(1);
  std::vector<WrittenPart> parts;
  while (!text.empty()) {
    const std::optional<double> number = take_number(text);
    if (!number) return std::nullopt;
    parts.push_back({negative ? -*number : *number, take_unit(text)});
  }
  if (parts.empty()) return std::nullopt;
  return parts;
}

}  // namespace stillheap::quantity
