#pragma once
#include <string>
#include <string_view>

#include "core/quantity/quantity.hpp"

/// Values as they stand in a site file, with the digits that a maker reads.
namespace stillheap::site {

/// An amount in a unit of the site file's table: 1.2 m in "in" is 47.24.
[[nodiscard]] double counted_in(std::string_view unit, double si, Dimension dimension);
/// By a format of printf for one double, without zeros at the end: "12.5".
[[nodiscard]] std::string formatted(const char* format, double value);
/// In quotes, with whatever TOML v1.0.0 wants escaped in a basic string.
[[nodiscard]] std::string in_quotes(std::string_view text);
/// "1.2 m" to the millimetre or "47.24 in", in quotes.
[[nodiscard]] std::string length_text(double m, UnitSystem units);
/// "12.5 %", in quotes.
[[nodiscard]] std::string percent_text(double share);

}  // namespace stillheap::site
