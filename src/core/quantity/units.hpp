#pragma once
#include <span>
#include <string_view>

#include "core/quantity/quantity.hpp"

/// The words of the trade for each kind of amount. The factors themselves come from UDUNITS-2.
namespace stillheap::quantity {

/// One way to write a unit.
struct Unit {
  Dimension dimension;
  std::string_view written;  ///< as in a site file
  const char* definition;    ///< what UDUNITS-2 is asked for
  bool shown = true;         ///< named in messages and docs; the others are understood silently
};

/// What a dimension is called, and how it is counted.
struct Kind {
  Dimension dimension;
  std::string_view noun;     ///< "a length"
  std::string_view example;  ///< "1.2 m"
  const char* si;            ///< UDUNITS-2 text of the unit noted at the Dimension
  bool sums = false;         ///< parts may be added: "12 ft 6 in"
  Dimension priced_per{};    ///< for money: what the price is divided by
  bool money = false;
};

[[nodiscard]] std::span<const Unit> units() noexcept;
[[nodiscard]] const Kind& kind_of(Dimension dimension) noexcept;

/// The row of a written unit, or null when the table has none.
[[nodiscard]] const Unit* find_unit(Dimension dimension, std::string_view written) noexcept;

/// value_in_si = offset + factor * value.
struct Conversion {
  double factor = 1.0;
  double offset = 0.0;
};

/// Conversion of a row of the table. Throws RunError when the unit database cannot be read.
[[nodiscard]] Conversion conversion_of(const Unit& unit);

}  // namespace stillheap::quantity
