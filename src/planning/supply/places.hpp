#pragma once
#include <vector>

#include "planning/supply/yard_plan.hpp"

namespace stillheap::supply {

/// One vessel's stay at a place, in parts counted on from the first part shown; below 0 or above the last: the years
/// before and after.
struct Stay {
  int place = 0;    ///< from 0
  int fill = 0;     ///< part it is filled in
  int harvest = 0;  ///< part it is harvested in
  int free = 0;     ///< first part in which the place may be filled again
  int year = 0;     ///< 0 for fillings of the year shown, -1 for the year before, ...
};

/// Where the fillings of the year that begins with `first_part` go, and those of years before that still stand in it,
/// in order of filling. Fillings take the places in turn: one that began earlier is never free later, so whoever comes
/// round finds the place empty, and the places are exactly as many as are taken at the busiest time (first come, first
/// served on an interval graph). From year to year they move on by fills_a_year modulo places.
[[nodiscard]] std::vector<Stay> stays_of(const Wish& wish, const YardPlan& plan, int first_part);

}  // namespace stillheap::supply
