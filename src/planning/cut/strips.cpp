#include "planning/cut/strips.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/error.hpp"
#include "core/optimise/integer_program.hpp"
#include "planning/cut/strip_patterns.hpp"

namespace stillheap::cut {
namespace {

void check(double roll_width_m, double longest_strip_m, const std::vector<Rectangle>& wants) {
  std::vector<Problem> problems;
  if (!(roll_width_m > 0.0)) problems.push_back({"roll, width", "is not above 0", "give its width"});
  if (!(longest_strip_m > 0.0)) problems.push_back({"roll, length", "is not above 0", "give its length"});
  for (const Rectangle& want : wants) {
    if (!(want.length_m > 0.0 && want.width_m > 0.0)) {
      problems.push_back({"piece of cloth", "has no length or no width", "give both above 0"});
    }
  }
  if (!problems.empty()) throw InputError(problems);
}

/// Lays the stacks of a pattern side by side, the longest first; pieces already cut often enough are left out.
Strip lay(const StripPattern& pattern, const std::vector<Stack>& stacks, const std::vector<Rectangle>& wants,
          std::vector<int>& left) {
  std::vector<std::size_t> order = pattern.stacks;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return stacks[a].along_m > stacks[b].along_m; });
  Strip strip;
  double y_m = 0.0;
  for (const std::size_t k : order) {
    const Stack& stack = stacks[k];
    double x_m = 0.0;
    double across_m = 0.0;
    for (std::size_t i = 0; i < stack.wants.size(); ++i) {
      const Rectangle& want = wants[stack.wants[i]];
      if (left[stack.wants[i]]-- <= 0) continue;
      const bool turned = stack.turned[i] != 0;
      const Placed piece{stack.wants[i], x_m, y_m, turned ? want.width_m : want.length_m,
                         turned ? want.length_m : want.width_m};
      x_m += piece.along_m;
      across_m = std::max(across_m, piece.across_m);
      strip.pieces.push_back(piece);
    }
    strip.length_m = std::max(strip.length_m, x_m);
    y_m += across_m;
  }
  return strip;
}

double area_bound_m(double roll_width_m, const std::vector<Rectangle>& wants) {
  double area = 0.0;
  for (const Rectangle& want : wants) area += want.count * want.length_m * want.width_m;
  return area / roll_width_m;
}

}  // namespace

std::optional<StripCuts> cut_strips(double roll_width_m, double longest_strip_m, const std::vector<Rectangle>& wants) {
  check(roll_width_m, longest_strip_m, wants);
  StripCuts cuts;
  cuts.every_pattern = true;
  if (std::all_of(wants.begin(), wants.end(), [](const Rectangle& want) { return want.count <= 0; })) return cuts;
  const StripPatterns found = strip_patterns(roll_width_m, longest_strip_m, wants);
  IntegerProgram program;
  program.rows.resize(wants.size());
  for (std::size_t i = 0; i < wants.size(); ++i) {
    program.rows[i].lower = wants[i].count;
    program.rows[i].upper = std::numeric_limits<double>::infinity();
  }
  for (const StripPattern& pattern : found.patterns) {
    const int column = static_cast<int>(program.cost.size());
    program.cost.push_back(pattern.length_m);
    for (std::size_t i = 0; i < wants.size(); ++i) {
      if (pattern.counts[i] > 0) program.rows[i].entries.push_back({column, static_cast<double>(pattern.counts[i])});
    }
  }
  const std::optional<IntegerAnswer> answer = solve(program);
  if (!answer) return std::nullopt;
  std::vector<int> left;
  left.reserve(wants.size());
  for (const Rectangle& want : wants) left.push_back(want.count);
  for (std::size_t p = 0; p < found.patterns.size(); ++p) {
    for (int n = 0; n < answer->columns[p]; ++n) {
      Strip strip = lay(found.patterns[p], found.stacks, wants, left);
      if (strip.pieces.empty()) continue;
      cuts.length_m += strip.length_m;
      cuts.strips.push_back(std::move(strip));
    }
  }
  cuts.every_pattern = found.all;
  cuts.bound_m = std::min(cuts.length_m, found.all ? answer->bound : area_bound_m(roll_width_m, wants));
  return cuts;
}

}  // namespace stillheap::cut
