#pragma once
#include <vector>

#include "planning/cut/strips.hpp"

namespace stillheap::cut {

/// One piece after the other along a strip.
struct Stack {
  std::vector<std::size_t> wants;
  std::vector<char> turned;  ///< a quarter turn from how the want is written
  std::vector<int> counts;   ///< by want
  double along_m = 0.0;
  double across_m = 0.0;
};

/// Stacks side by side, and how often each want is among them.
struct StripPattern {
  double length_m = 0.0;
  std::vector<int> counts;
  std::vector<std::size_t> stacks;
};

struct StripPatterns {
  std::vector<Stack> stacks;
  std::vector<StripPattern> patterns;  ///< none of which another one gives more for less
  bool all = true;                     ///< false: some large strips were left out to keep the list short
};

[[nodiscard]] StripPatterns strip_patterns(double roll_width_m, double longest_strip_m,
                                           const std::vector<Rectangle>& wants);

}  // namespace stillheap::cut
