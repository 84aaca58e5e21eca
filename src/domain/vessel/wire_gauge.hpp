#pragma once
#include <optional>

namespace stillheap::vessel {

/// Diameter of steel wire by the steel wire gauge used in the United States. Zeros are written as
/// negative numbers: 0 is gauge 0, -1 is 2/0, and so on down to -6 for 7/0. Nothing outside 7/0 to 20.
/// Source: US steel wire gauge table as in machinery handbooks; 7/0 = 0.4900 in and 0 = 0.3065 in read in
/// an encyclopedia of materials, the others from memory.
[[nodiscard]] std::optional<double> steel_wire_diameter_m(int gauge) noexcept;

/// Diameter by the American wire gauge (copper and other non-ferrous wire): 0.005 in 92^((36 - n) / 39).
/// Not for steel mesh; here so that a mix-up can be told. Source: ASTM B258, the gauge's definition.
[[nodiscard]] double american_wire_diameter_m(int gauge) noexcept;

}  // namespace stillheap::vessel
