#pragma once
#include <string>

#include "core/base/plain_number.hpp"

namespace stillheap::quantity {

using plain::round_to_digits;
using plain::to_text;

/// To the cent, with both decimals when there are any: "9.50", "40". Below ten cents to three digits.
[[nodiscard]] std::string money_text(double value);

}  // namespace stillheap::quantity
