#pragma once
#include <vector>

#include "planning/cut/lengths.hpp"

namespace stillheap::cut {

/// How often each want comes out of one bar.
struct Pattern {
  std::size_t stock = 0;
  std::vector<int> counts;
};

/// A way of cutting fits to within this, so that rounded inches do not cost a bar.
inline constexpr double fit_slack_m = 1e-6;

/// All patterns of a bar that leave no room for another wanted piece, none twice; empty when there are more than
/// `most` of them.
[[nodiscard]] std::vector<Pattern> full_patterns(const std::vector<Bar>& bars, const std::vector<Want>& wants,
                                                 double saw_m, std::size_t most);

/// The counts that are worth most on one bar, by branch and bound over the wants in order of worth a metre.
[[nodiscard]] std::vector<int> dearest_pattern(const Bar& bar, const std::vector<Want>& wants,
                                               const std::vector<double>& worth, double saw_m);

}  // namespace stillheap::cut
