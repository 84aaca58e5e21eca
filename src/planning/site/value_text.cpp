#include "planning/site/value_text.hpp"

#include <array>
#include <cassert>
#include <cstdio>

#include "core/quantity/units.hpp"

namespace stillheap::site {

double counted_in(std::string_view unit, double si, Dimension dimension) {
  const quantity::Unit* const row = quantity::find_unit(dimension, unit);
  assert(row != nullptr);
  const quantity::Conversion conversion = quantity::conversion_of(*row);
  return (si - conversion.offset) / conversion.factor;
}

std::string formatted(const char* format, double value) {
  std::array<char, 48> text{};
  std::snprintf(text.data(), text.size(), format, value);
  std::string made = text.data();
  if (made.find('.') == std::string::npos) return made;
  made.erase(made.find_last_not_of('0') + 1);
  if (made.back() == '.') made.pop_back();
  return made == "-0" ? "0" : made;
}

std::string in_quotes(std::string_view text) {
  std::string made = "\"";
  for (const char one : text) {
    const auto code = static_cast<unsigned char>(one);
    if (one == '"' || one == '\\') made += '\\';
    if (code < 0x20 || code == 0x7f) {
      std::array<char, 8> escape{};
      std::snprintf(escape.data(), escape.size(), "\\u%04x", static_cast<unsigned>(code));
      made += escape.data();
    } else {
      made += one;
    }
  }
  return made + '"';
}

std::string length_text(double m, UnitSystem units) {
  return in_quotes(units == UnitSystem::us ? formatted("%.2f", counted_in("in", m, Dimension::length)) + " in"
                                           : formatted("%.3f", m) + " m");
}

std::string percent_text(double share) { return in_quotes(formatted("%.2f", 100.0 * share) + " %"); }

}  // namespace stillheap::site
