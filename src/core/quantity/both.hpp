#pragma once
#include <string>

#include "core/quantity/quantity.hpp"

namespace stillheap::quantity {

/// What `text(system)` says in both systems of units, for who does not know which the reader uses: "0.3 m (1 ft)"; once
/// where they say the same.
template <class Text>
std::string in_both(const Text& text) {
  const std::string metric = text(UnitSystem::metric);
  const std::string us = text(UnitSystem::us);
  return metric == us ? metric : metric + " (" + us + ")";
}

}  // namespace stillheap::quantity
