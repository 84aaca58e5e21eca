#pragma once
#include <optional>
#include <string>

#include "core/quantity/units.hpp"

namespace stillheap::quantity {

/// Asks UDUNITS-2 how to turn `unit` into `si` (both in its own notation). Nothing when it does not know the
/// unit or when the two measure different things. Safe to call from several threads.
/// Throws RunError when its unit database cannot be read.
[[nodiscard]] std::optional<Conversion> ask_database(const std::string& unit, const std::string& si);

/// Whether UDUNITS-2 knows the unit at all, whatever it measures.
[[nodiscard]] bool database_knows(const std::string& unit);

}  // namespace stillheap::quantity
