#include "core/quantity/rounding.hpp"

#include <cmath>

namespace stillheap::quantity {

std::string money_text(double value) {
  if (value != 0.0 && std::abs(value) < 0.1) return to_text(value, 3);
  const double cents = std::round(value * 100.0 * (1.0 + 4e-15));
  return plain::decimal(cents / 100.0, std::fmod(cents, 100.0) == 0.0 ? 0 : 2);
}

}  // namespace stillheap::quantity
