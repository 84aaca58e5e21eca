#pragma once
#include <string>

#include "core/quantity/quantity.hpp"

/// Results of a forecast in the digits that it can stand for, the same on every sheet, list and screen.
namespace stillheap::quantity {

/// To the whole degree, "68 degC", never "-0".
[[nodiscard]] std::string whole_degrees(double celsius, UnitSystem system);
/// "65 %", to the given decimals.
[[nodiscard]] std::string percent(double share, int decimals = 0);

}  // namespace stillheap::quantity
