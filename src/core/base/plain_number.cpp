#include "core/base/plain_number.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace stillheap::plain {
namespace {

/// Power of ten of the leading digit.
int leading_power(double value) noexcept { return static_cast<int>(std::floor(std::log10(std::abs(value)))); }

std::string fixed(double value, int decimals) {
  char buffer[400];  // the largest double has 309 digits before the point
  const int size = std::snprintf(buffer, sizeof buffer, "%.*f", std::min(decimals, 60), value);
  return {buffer, static_cast<std::size_t>(size)};
}

}  // namespace

double round_to_digits(double value, int digits) noexcept {
  if (value == 0.0 || !std::isfinite(value)) return value;
  const int shift = digits - 1 - leading_power(value);
  const double scale = std::pow(10.0, std::abs(shift));
  // A hair up, so that a half that lost its last bits in a conversion still goes up.
  const double scaled = (shift >= 0 ? value * scale : value / scale) * (1.0 + 4e-15);
  return shift >= 0 ? std::round(scaled) / scale : std::round(scaled) * scale;
}

std::string to_text(double value, int digits) {
  if (!std::isfinite(value)) return "unknown";
  const double rounded = round_to_digits(value, digits);
  if (rounded == 0.0) return "0";
  const int decimals = std::max(0, digits - 1 - leading_power(rounded));
  std::string text = fixed(rounded, decimals);
  if (text.find('.') == std::string::npos) return text;
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string decimal(double value, int decimals) {
  if (!std::isfinite(value)) return "unbounded";
  const std::string text = fixed(value, decimals);
  return text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos ? text.substr(1) : text;
}

}  // namespace stillheap::plain
