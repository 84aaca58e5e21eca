#include "planning/cut/strip_patterns.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillheap::cut {
namespace {

constexpr double slack_m = 1e-6;  // so that rounded inches still fit
constexpr std::size_t deepest_stack = 3;
constexpr std::size_t most_states = 4000;  // chosen: sets of pieces on one strip that are looked at

/// All stacks of at most three pieces, kept in one order so that none comes twice.
class Stacker {
 public:
  Stacker(double width_m, double longest_m, const std::vector<Rectangle>& wants)
      : width_m_(width_m), longest_m_(longest_m), wants_(wants) {}

  std::vector<Stack> all() {
    Stack empty;
    empty.counts.assign(wants_.size(), 0);
    grow(empty, 0);
    return std::move(stacks_);
  }

 private:
  void grow(const Stack& below, std::size_t from) {
    if (below.wants.size() == deepest_stack) return;
    for (std::size_t way = from; way < 2 * wants_.size(); ++way) {
      const std::size_t want = way / 2;
      const bool turn = way % 2 == 1;
      const Rectangle& piece = wants_[want];
      if (turn && piece.length_m == piece.width_m) continue;
      Stack stack = below;
      stack.along_m += turn ? piece.width_m : piece.length_m;
      stack.across_m = std::max(stack.across_m, turn ? piece.length_m : piece.width_m);
      if (stack.counts[want] == piece.count || stack.along_m > longest_m_ + slack_m ||
          stack.across_m > width_m_ + slack_m) {
        continue;
      }
      stack.wants.push_back(want);
      stack.turned.push_back(turn ? 1 : 0);
      ++stack.counts[want];
      stacks_.push_back(stack);
      grow(stack, way);
    }
  }

  double width_m_, longest_m_;
  const std::vector<Rectangle>& wants_;
  std::vector<Stack> stacks_;
};

/// Numbers every set of pieces up to a most of each: a mixed-radix count.
class States {
 public:
  explicit States(std::vector<int> most) : most_(std::move(most)) {
    for (const int n : most_) {
      step_.push_back(size_);
      size_ *= static_cast<std::size_t>(n) + 1;
    }
  }
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] std::vector<int> counts(std::size_t state) const {
    std::vector<int> counts;
    for (const int n : most_) {
      counts.push_back(static_cast<int>(state % (static_cast<std::size_t>(n) + 1)));
      state /= static_cast<std::size_t>(n) + 1;
    }
    return counts;
  }
  /// Where the pieces of a stack lead from here; nothing-left states give size().
  [[nodiscard]] std::size_t after(std::size_t state, const std::vector<int>& added) const {
    const std::vector<int> have = counts(state);
    for (std::size_t i = 0; i < have.size(); ++i) {
      if (have[i] + added[i] > most_[i]) return size_;
      state += step_[i] * static_cast<std::size_t>(added[i]);
    }
    return state;
  }

 private:
  std::vector<int> most_;
  std::vector<std::size_t> step_;
  std::size_t size_ = 1;
};

/// How many of each want one strip can be asked for, lowered all round until the states are few enough.
States states_for(double width_m, const std::vector<Rectangle>& wants, bool& all) {
  for (int cap = 1 << 20;; cap = cap > 64 ? 64 : cap - 1) {
    std::vector<int> most;
    double product = 1.0;
    bool lowered = false;
    for (const Rectangle& want : wants) {
      const double narrow = std::min(want.length_m, want.width_m);
      const int beside = static_cast<int>(deepest_stack) * static_cast<int>(std::floor((width_m + slack_m) / narrow));
      const int useful = std::min(want.count, std::max(beside, 1));
      lowered = lowered || useful > cap;
      most.push_back(std::min(useful, cap));
      product *= most.back() + 1.0;
    }
    if (product <= static_cast<double>(most_states) || cap <= 1) {
      all = !lowered;
      return States(std::move(most));
    }
  }
}

std::vector<double> lengths_of(const std::vector<Stack>& stacks) {
  std::vector<double> lengths;
  lengths.reserve(stacks.size());
  for (const Stack& stack : stacks) lengths.push_back(stack.along_m);
  std::sort(lengths.begin(), lengths.end());
  lengths.erase(std::unique(lengths.begin(), lengths.end(), [](double a, double b) { return b - a < slack_m; }),
                lengths.end());
  return lengths;
}

struct Step {
  double across_m = std::numeric_limits<double>::infinity();
  std::size_t from = 0, stack = 0;
};

/// Narrowest way to have each set of pieces side by side on a strip of this length.
std::vector<Step> narrowest(const States& states, const std::vector<Stack>& stacks, double length_m, double width_m) {
  std::vector<Step> best(states.size());
  best[0].across_m = 0.0;
  for (std::size_t state = 0; state < states.size(); ++state) {  // a stack only ever adds to the number
    if (best[state].across_m > width_m + slack_m) continue;
    for (std::size_t k = 0; k < stacks.size(); ++k) {
      if (stacks[k].along_m > length_m + slack_m) continue;
      const double across_m = best[state].across_m + stacks[k].across_m;
      if (across_m > width_m + slack_m) continue;
      const std::size_t next = states.after(state, stacks[k].counts);
      if (next < states.size() && across_m < best[next].across_m - 1e-12) best[next] = {across_m, state, k};
    }
  }
  return best;
}

bool gives_no_more(const StripPattern& a, const StripPattern& b) {
  for (std::size_t i = 0; i < a.counts.size(); ++i) {
    if (a.counts[i] > b.counts[i]) return false;
  }
  return true;
}

/// Patterns come shortest first: one is of no use when a shorter or equal one gives as much.
void drop_useless(std::vector<StripPattern>& patterns) {
  std::vector<StripPattern> kept;
  for (std::size_t p = 0; p < patterns.size(); ++p) {
    bool useless = false;
    for (std::size_t q = 0; q < patterns.size() && patterns[q].length_m <= patterns[p].length_m + slack_m; ++q) {
      useless = useless || (p != q && gives_no_more(patterns[p], patterns[q]));
    }
    if (!useless) kept.push_back(patterns[p]);
  }
  patterns = std::move(kept);
}

}  // namespace

StripPatterns strip_patterns(double roll_width_m, double longest_strip_m, const std::vector<Rectangle>& wants) {
  StripPatterns found;
  found.stacks = Stacker(roll_width_m, longest_strip_m, wants).all();
  const States states = states_for(roll_width_m, wants, found.all);
  std::vector<char> seen(states.size(), 0);
  seen[0] = 1;
  for (const double length_m : lengths_of(found.stacks)) {
    const std::vector<Step> best = narrowest(states, found.stacks, length_m, roll_width_m);
    for (std::size_t state = 1; state < states.size(); ++state) {
      if (seen[state] != 0 || std::isinf(best[state].across_m)) continue;
      seen[state] = 1;
      StripPattern pattern{length_m, states.counts(state), {}};
      for (std::size_t at = state; at != 0; at = best[at].from) pattern.stacks.push_back(best[at].stack);
      found.patterns.push_back(std::move(pattern));
    }
  }
  drop_useless(found.patterns);
  return found;
}

}  // namespace stillheap::cut
