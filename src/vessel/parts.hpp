#pragma once
#include <string>
#include <vector>

#include "vessel/design.hpp"

namespace stillheap::vessel {

/// A line of the shopping list or cut list. Lengths in metres; unused ones are 0.
struct Piece {
  std::string what;        ///< generic description: "welded wire mesh, cut to a panel"
  std::string use;         ///< "cage"
  int count = 0;           ///< for one vessel
  double length_m = 0.0;
  double width_m = 0.0;
  double diameter_m = 0.0;
  std::string price_key;   ///< which price of the site file values it: "mesh", "lining", ...; empty: none
};

/// Everything one vessel is made of, cut sizes included.
[[nodiscard]] std::vector<Piece> pieces_of(const Design& design);

}  // namespace stillheap::vessel
