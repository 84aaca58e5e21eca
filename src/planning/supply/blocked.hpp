#pragma once
#include <vector>

#include "planning/supply/program.hpp"

namespace stillheap::supply {

/// One change to the wish.
struct Mend {
  Limit limit = Limit::wanted;
  std::size_t season = 0;  ///< which, for Limit::seasons
  double amount = 0.0;     ///< places in all, hours or m3 more in a year, m3 of room, days of waiting, cold fillings
  std::vector<double> by_part;  ///< hours, m3 or cold fillings of each part
};

/// Changes that together let the wish be met.
using Way = std::vector<Mend>;

/// Ways out of a wish that cannot be met: each limit that does it alone, with the least it has to give; where none
/// does, one set of limits of which none can be left out. Wanting less is no way of these. Empty when the wish can
/// be met as it is. Throws as best_plan.
[[nodiscard]] std::vector<Way> ways_out(const Wish& wish);

}  // namespace stillheap::supply
