#pragma once
#include <string>

namespace stillheap::quantity {

/// Nearest value with that many significant digits, halves away from zero. 0 stays 0.
[[nodiscard]] double round_to_digits(double value, int digits) noexcept;

/// Decimal text without exponent and without trailing zeros after the point.
[[nodiscard]] std::string to_text(double value, int digits);

/// To the cent, with both decimals when there are any: "9.50", "40". Below ten cents to three digits.
[[nodiscard]] std::string money_text(double value);

}  // namespace stillheap::quantity
