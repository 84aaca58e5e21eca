#include <array>
#include <cctype>
#include <string>
#include <string_view>
#include <utility>

#include "present/draw/text.hpp"

namespace stillheap::sheet {
namespace {

using Swap = std::pair<std::string_view, std::string_view>;
// Unit names as the other stages write them, and their print form.
constexpr std::array<Swap, 12> unit_signs{{{"degC", "°C"},
                                           {"degF", "°F"},
                                           {"m2", "m²"},
                                           {"m3", "m³"},
                                           {"ft2", "ft²"},
                                           {"ft3", "ft³"},
                                           {"yd3", "yd³"},
                                           {"in2", "in²"},
                                           {"mm2", "mm²"},
                                           {"cm2", "cm²"},
                                           {"cm3", "cm³"},
                                           {"in3", "in³"}}};
constexpr std::array<std::string_view, 52> units{
    "mm",  "cm",  "m",    "km",  "in",  "ft",   "yd",   "mm2", "cm2", "m2",  "ft2", "in2", "l",
    "L",   "m3",  "ft3",  "yd3", "gal", "g",    "kg",   "t",   "lb",  "oz",  "ton", "s",   "min",
    "h",   "day", "days", "d",   "%",   "degC", "degF", "K",   "Pa",  "kPa", "MPa", "bar", "psi",
    "psf", "N",   "kN",   "W",   "kW",  "J",    "MJ",   "S",   "dS",  "mS",  "rad", "deg", "lbf"};
constexpr std::string_view no_break = "\u00A0";

bool in_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

bool is_unit(std::string_view word) {
  for (const std::string_view unit : units) {
    if (unit == word) return true;
  }
  return false;
}

std::string_view word_at(std::string_view text, std::size_t start) {
  std::size_t end = start;
  if (end < text.size() && text[end] == '%') return text.substr(start, 1);
  while (end < text.size() && in_word(text[end])) ++end;
  return text.substr(start, end - start);
}

std::string_view sign_of(std::string_view word) {
  for (const Swap& swap : unit_signs) {
    if (swap.first == word) return swap.second;
  }
  return word;
}

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// The space in "302 mm", in "11 7/8" and in "4 ft 6" must not break; the one in "of 2 in each case" may be read as a
// unit, which does no harm.
bool binds(std::string_view text, std::size_t space) {
  if (space == 0) return false;
  const bool feet =
      space >= 4 && text.substr(space - 2, 2) == "ft" && text[space - 3] == ' ' && is_digit(text[space - 4]);
  if (feet && space + 1 < text.size() && is_digit(text[space + 1])) return true;
  if (!is_digit(text[space - 1])) return false;
  const std::string_view next = word_at(text, space + 1);
  if (is_unit(next)) return true;
  const std::size_t after = space + 1 + next.size();
  return !next.empty() && is_digit(next.front()) && after < text.size() && text[after] == '/';
}

}  // namespace

std::string typeset(std::string_view plain) {
  std::string out;
  std::size_t i = 0;
  while (i < plain.size()) {
    if (plain[i] == ' ' && binds(plain, i)) {
      out += no_break;
      ++i;
    } else if (in_word(plain[i])) {
      const std::string_view word = word_at(plain, i);
      out += sign_of(word);
      i += word.size();
    } else {
      out += plain[i++];
    }
  }
  return out;
}

}  // namespace stillheap::sheet
