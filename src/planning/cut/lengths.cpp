#include "planning/cut/lengths.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include "core/base/error.hpp"
#include "core/optimise/integer_program.hpp"
#include "planning/cut/patterns.hpp"

namespace stillheap::cut {
namespace {

constexpr std::size_t most_patterns = 3000;  // chosen: GLPK still weighs them in a moment
constexpr int most_rounds = 400;             // of generating patterns; a few dozen are usual
constexpr double unlimited = std::numeric_limits<double>::infinity();

void check(const std::vector<Bar>& bars, const std::vector<Want>& wants, double saw_m) {
  std::vector<Problem> problems;
  for (const Bar& bar : bars) {
    if (!(bar.length_m > 0.0)) problems.push_back({"stock, length", "is not above 0", "give its length"});
    if (!(bar.cost >= 0.0)) problems.push_back({"stock, cost", "is below 0", "give 0 or more"});
  }
  for (const Want& want : wants) {
    if (!(want.length_m > 0.0)) problems.push_back({"piece, length", "is not above 0", "give its length"});
  }
  if (!(saw_m >= 0.0)) problems.push_back({"saw cut", "is below 0", "give 0 or more"});
  if (!problems.empty()) throw InputError(problems);
}

/// With one price everywhere a bar counts 1: the solver then knows that every whole answer is a whole number.
double price_unit(const std::vector<Bar>& bars) {
  const double first = bars.empty() ? 0.0 : bars.front().cost;
  const bool alike = std::all_of(bars.begin(), bars.end(), [&](const Bar& bar) { return bar.cost == first; });
  return alike && first > 0.0 ? first : 1.0;
}

IntegerProgram program_of(const std::vector<Pattern>& patterns, const std::vector<Bar>& bars,
                          const std::vector<Want>& wants, double unit) {
  IntegerProgram program;
  program.rows.resize(wants.size() + bars.size());
  for (std::size_t i = 0; i < wants.size(); ++i) {
    program.rows[i].lower = wants[i].count;
    program.rows[i].upper = unlimited;
  }
  for (std::size_t s = 0; s < bars.size(); ++s) {
    Row& row = program.rows[wants.size() + s];
    row.lower = -unlimited;
    row.upper = bars[s].at_most ? *bars[s].at_most : unlimited;
  }
  for (const Pattern& pattern : patterns) {
    const int column = static_cast<int>(program.cost.size());
    program.cost.push_back(bars[pattern.stock].cost / unit);
    for (std::size_t i = 0; i < wants.size(); ++i) {
      if (pattern.counts[i] > 0) program.rows[i].entries.push_back({column, static_cast<double>(pattern.counts[i])});
    }
    program.rows[wants.size() + pattern.stock].entries.push_back({column, 1.0});
  }
  return program;
}

/// A column a want that stands for going without the piece, so dear that it is used only when nothing else helps.
void add_missing(IntegerProgram& program, std::size_t wants, double dear) {
  for (std::size_t i = 0; i < wants; ++i) {
    program.rows[i].entries.push_back({static_cast<int>(program.cost.size()), 1.0});
    program.cost.push_back(dear);
  }
}

double dearest(const std::vector<Bar>& bars, double unit) {
  double most = 1.0;
  for (const Bar& bar : bars) most = std::max(most, bar.cost / unit);
  return 1e4 * most;
}

/// Adds the patterns the linear programme asks for until it asks for none; its last cost is the bound.
std::optional<double> generate(std::vector<Pattern>& patterns, const std::vector<Bar>& bars,
                               const std::vector<Want>& wants, double saw_m, double unit) {
  for (int round = 0; round < most_rounds; ++round) {
    IntegerProgram program = program_of(patterns, bars, wants, unit);
    add_missing(program, wants.size(), dearest(bars, unit));
    const std::optional<Relaxed> relaxed = relax(program);
    if (!relaxed) return std::nullopt;
    bool more = false;
    for (std::size_t s = 0; s < bars.size(); ++s) {
      std::vector<double> worth(relaxed->row_price.begin(),
                                relaxed->row_price.begin() + static_cast<std::ptrdiff_t>(wants.size()));
      Pattern pattern{s, dearest_pattern(bars[s], wants, worth, saw_m)};
      const double gain = std::inner_product(worth.begin(), worth.end(), pattern.counts.begin(), 0.0) +
                          relaxed->row_price[wants.size() + s] - bars[s].cost / unit;
      if (gain <= 1e-9) continue;
      patterns.push_back(std::move(pattern));
      more = true;
    }
    if (!more) return relaxed->cost;
  }
  return 0.0;  // not settled: no bound better than nothing
}

std::vector<CutBar> bars_from(const std::vector<Pattern>& patterns, const std::vector<int>& times,
                              const std::vector<Bar>& stock, const std::vector<Want>& wants, double saw_m) {
  std::vector<int> left;
  left.reserve(wants.size());
  std::vector<std::size_t> order(wants.size());
  for (const Want& want : wants) left.push_back(want.count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return wants[a].length_m > wants[b].length_m; });
  std::vector<CutBar> bars;
  for (std::size_t p = 0; p < patterns.size(); ++p) {
    for (int n = 0; n < times[p]; ++n) {
      CutBar bar{patterns[p].stock, {}, stock[patterns[p].stock].length_m};
      for (const std::size_t i : order) {
        for (int k = 0; k < patterns[p].counts[i] && left[i] > 0; ++k, --left[i]) {
          bar.wants.push_back(i);
          bar.rest_m -= wants[i].length_m + saw_m;
        }
      }
      bar.rest_m = std::max(0.0, bar.rest_m);
      if (!bar.wants.empty()) bars.push_back(std::move(bar));
    }
  }
  return bars;
}

}  // namespace

std::optional<LengthCuts> cut_lengths(const std::vector<Bar>& bars, const std::vector<Want>& wants, double saw_m) {
  check(bars, wants, saw_m);
  LengthCuts cuts;
  cuts.every_pattern = true;
  const bool nothing = std::all_of(wants.begin(), wants.end(), [](const Want& want) { return want.count <= 0; });
  if (nothing) return cuts;
  const double unit = price_unit(bars);
  std::vector<Pattern> patterns = full_patterns(bars, wants, saw_m, most_patterns);
  cuts.every_pattern = !patterns.empty();
  double bound = 0.0;
  if (!cuts.every_pattern) {
    const std::optional<double> relaxed = generate(patterns, bars, wants, saw_m, unit);
    if (!relaxed || *relaxed >= dearest(bars, unit)) return std::nullopt;
    bound = *relaxed;
  }
  const std::optional<IntegerAnswer> answer = solve(program_of(patterns, bars, wants, unit));
  if (!answer) return std::nullopt;
  if (cuts.every_pattern) bound = answer->bound;
  const bool whole_costs =
      unit != 1.0 || std::all_of(bars.begin(), bars.end(), [](const Bar& b) { return b.cost == 1.0; });
  if (whole_costs) bound = std::ceil(bound - 1e-6);
  cuts.bars = bars_from(patterns, answer->columns, bars, wants, saw_m);
  for (const CutBar& bar : cuts.bars) cuts.cost += bars[bar.stock].cost;
  cuts.bound = std::min(bound * unit, cuts.cost);
  return cuts;
}

}  // namespace stillheap::cut
