#pragma once
#include <optional>
#include <vector>

#include "planning/supply/program.hpp"

namespace stillheap::supply {

/// One year of the yard, like the one before and the one after. Lists hold one value a part.
struct YardPlan {
  std::vector<int> fills;
  std::vector<int> harvests;
  std::vector<int> busy;                         ///< places taken, resting ones included
  std::vector<double> short_m3;                  ///< wanted and not there; all 0 in a plan that meets the wish
  std::vector<double> stock_m3;                  ///< compost kept at the end of the part for what is wanted later
  std::vector<double> spare_m3;                  ///< harvested and not wanted: may be given away
  std::vector<double> hours;                     ///< of all people
  std::vector<std::vector<double>> material_m3;  ///< each season: kept at the end of the part for later fillings
  int places = 0;
  int fills_a_year = 0;
  double busiest_hours = 0.0;
  bool places_proven = true;  ///< no plan needs fewer
  bool fills_proven = true;
  double busiest_bound_hours = 0.0;  ///< no plan with these places and fillings keeps its busiest part below
  bool store_proven = true;
};

/// The plan with the least compost wanted and not there (`short_of_wanted`; else none may be short), then the fewest
/// places, the fewest fillings, the least hours in the busiest part, and the least compost in store, in this order.
/// Nothing when the wish cannot be met. Throws InputError as check() does, RunError when GLPK gives up.
[[nodiscard]] std::optional<YardPlan> best_plan(const Wish& wish, bool short_of_wanted = false);

/// The fewest places alone; nothing when the wish cannot be met.
[[nodiscard]] std::optional<int> fewest_places(const Wish& wish);

/// All that follows from the fillings of a year. `short_m3` is taken as given.
[[nodiscard]] YardPlan plan_of_fills(const Wish& wish, const std::vector<int>& fills,
                                     const std::vector<double>& short_m3);

/// One of the programme's answers, with RunErrors told as the yard plan's.
[[nodiscard]] std::optional<cut::IntegerAnswer> solve(const Model& model);

}  // namespace stillheap::supply
