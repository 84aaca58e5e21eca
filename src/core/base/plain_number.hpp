#pragma once
#include <string>

/// Numbers as people write them. Whatever a person reads takes its digits from here, never from a format with an
/// exponent.
namespace stillheap::plain {

/// Nearest value with that many significant digits, halves away from zero. 0 stays 0.
[[nodiscard]] double round_to_digits(double value, int digits) noexcept;

/// Decimal text without exponent and without trailing zeros after the point; "unknown" when it is not finite.
[[nodiscard]] std::string to_text(double value, int digits);

/// To so many decimals, zeros kept: "2.40"; "unbounded" when it is not finite, never "-0".
[[nodiscard]] std::string decimal(double value, int decimals);

}  // namespace stillheap::plain
