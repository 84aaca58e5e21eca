#include "core/quantity/told.hpp"

#include "core/base/plain_number.hpp"

namespace stillheap::quantity {

std::string whole_degrees(double celsius, UnitSystem system) {
  const std::string unit = system == UnitSystem::us ? "degF" : "degC";
  const double zero = parse("0 " + unit, Dimension::temperature);
  const double one = parse("1 " + unit, Dimension::temperature);
  return plain::decimal((celsius - zero) / (one - zero), 0) + " " + unit;
}

std::string percent(double share, int decimals) { return plain::decimal(share * 100.0, decimals) + " %"; }

}  // namespace stillheap::quantity
