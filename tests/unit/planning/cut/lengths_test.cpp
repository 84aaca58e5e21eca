#include "planning/cut/lengths.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <random>

#include "core/base/error.hpp"

namespace stillheap::cut {
namespace {

/// Every way of putting single pieces on bars, the slow and certain way: the first piece left goes on a bar with every
/// set of the others that fits.
class BruteForce {
 public:
  BruteForce(const std::vector<Bar>& bars, const std::vector<Want>& wants, double saw_m) : bars_(bars), saw_m_(saw_m) {
    for (const Want& want : wants) pieces_.insert(pieces_.end(), static_cast<std::size_t>(want.count), want.length_m);
  }
  double cheapest() {
    std::vector<int> left;
    for (const Bar& bar : bars_) left.push_back(bar.at_most.value_or(100));
    return cheapest((1U << pieces_.size()) - 1U, left);
  }

 private:
  double cheapest(unsigned todo, const std::vector<int>& left) {
    if (todo == 0) return 0.0;
    const auto known = seen_.find({todo, left});
    if (known != seen_.end()) return known->second;
    double best = std::numeric_limits<double>::infinity();
    const unsigned first = todo & (~todo + 1U);
    for (unsigned set = todo; set > 0; set = (set - 1) & todo) {
      if ((set & first) == 0) continue;
      for (std::size_t s = 0; s < bars_.size(); ++s) {
        if (left[s] == 0 || !fits(set, bars_[s])) continue;
        std::vector<int> after = left;
        --after[s];
        best = std::min(best, bars_[s].cost + cheapest(todo & ~set, after));
      }
    }
    return seen_[{todo, left}] = best;
  }
  [[nodiscard]] bool fits(unsigned set, const Bar& bar) const {
    double used = -saw_m_;
    for (std::size_t i = 0; i < pieces_.size(); ++i)
      if ((set >> i & 1U) != 0) used += pieces_[i] + saw_m_;
    return used <= bar.length_m + 1e-6;
  }

  const std::vector<Bar>& bars_;
  double saw_m_;
  std::vector<double> pieces_;
  std::map<std::pair<unsigned, std::vector<int>>, double> seen_;
};

/// Nothing is cut twice, nothing is missing, and no bar is overfull.
void expect_sound(const LengthCuts& cuts, const std::vector<Bar>& bars, const std::vector<Want>& wants, double saw_m) {
  std::vector<int> got(wants.size(), 0);
  std::vector<int> used(bars.size(), 0);
  double cost = 0.0;
  for (const CutBar& bar : cuts.bars) {
    double length_m = -saw_m;
    for (const std::size_t want : bar.wants) {
      ++got[want];
      length_m += wants[want].length_m + saw_m;
    }
    EXPECT_LE(length_m, bars[bar.stock].length_m + 1e-6);
    EXPECT_NEAR(bar.rest_m, std::max(0.0, bars[bar.stock].length_m - length_m - saw_m), 1e-9);
    ++used[bar.stock];
    cost += bars[bar.stock].cost;
  }
  for (std::size_t i = 0; i < wants.size(); ++i) EXPECT_EQ(got[i], wants[i].count);
  for (std::size_t s = 0; s < bars.size(); ++s) {
    EXPECT_LE(used[s], bars[s].at_most.value_or(used[s]));
  }
  EXPECT_NEAR(cost, cuts.cost, 1e-9);
}

struct Case {
  std::vector<Bar> bars;
  std::vector<Want> wants;
  double saw_m = 0.0;
};

Case random_case(std::mt19937& random) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  Case one;
  one.saw_m = whole(0, 1) * 0.003;
  const int kinds = whole(1, 3);
  for (int s = 0; s < kinds; ++s) {
    Bar bar{0.1 * whole(20, 60), 1.0 * whole(1, 9), {}};
    if (whole(0, 2) == 0) bar.at_most = whole(1, 3);
    one.bars.push_back(bar);
  }
  int pieces = 0;
  for (int i = whole(1, 4); i > 0 && pieces < 9; --i) {
    one.wants.push_back({0.1 * whole(3, 35), whole(1, std::min(4, 9 - pieces))});
    pieces += one.wants.back().count;
  }
  return one;
}

TEST(CutLengths, CostWhatTheSlowAndCertainWayCosts) {
  std::mt19937 random(41U);
  int solved = 0;
  for (int trial = 0; trial < 400; ++trial) {
    const Case one = random_case(random);
    const double certain = BruteForce(one.bars, one.wants, one.saw_m).cheapest();
    const auto cuts = cut_lengths(one.bars, one.wants, one.saw_m);
    ASSERT_EQ(cuts.has_value(), std::isfinite(certain)) << trial;
    if (!cuts) continue;
    ++solved;
    EXPECT_NEAR(cuts->cost, certain, 1e-9) << trial;
    EXPECT_TRUE(cuts->optimal()) << trial;
    expect_sound(*cuts, one.bars, one.wants, one.saw_m);
  }
  EXPECT_GT(solved, 200) << "most cases must be solvable, or the check checks nothing";
}

TEST(CutLengths, SayHowFarOffTheyCanBeWhenPatternsAreTooManyToList) {
  std::mt19937 random(7U);
  std::vector<Want> wants;
  for (int i = 0; i < 24; ++i) {
    wants.push_back({std::uniform_real_distribution<double>(0.15, 1.4)(random), 1 + i % 5});
  }
  const std::vector<Bar> bars{{6.0, 1.0, {}}};
  const auto cuts = cut_lengths(bars, wants, 0.003);
  ASSERT_TRUE(cuts);
  EXPECT_FALSE(cuts->every_pattern);
  expect_sound(*cuts, bars, wants, 0.003);
  EXPECT_GE(cuts->bound, 1.0);
  EXPECT_LE(cuts->bound, cuts->cost);
  EXPECT_LE(cuts->cost - cuts->bound, 1.0) << "the whole answer lies within one bar of its bound";
}

TEST(CutLengths, TakeNoSawCutBehindTheLastPiece) {
  const auto cuts = cut_lengths({{2.003, 1.0, {}}}, {{1.0, 2}}, 0.003);
  ASSERT_TRUE(cuts);
  EXPECT_EQ(cuts->bars.size(), 1U);
  EXPECT_EQ(cuts->bars[0].rest_m, 0.0);
  EXPECT_EQ(cut_lengths({{2.0, 1.0, {}}}, {{1.0, 2}}, 0.003)->bars.size(), 2U);
}

TEST(CutLengths, UseWhatLiesInTheYardFirst) {
  const auto cuts = cut_lengths({{3.0, 10.0, {}}, {1.2, 0.0, 2}}, {{1.0, 5}}, 0.0);
  ASSERT_TRUE(cuts);
  EXPECT_NEAR(cuts->cost, 10.0, 1e-12);
  EXPECT_EQ(std::count_if(cuts->bars.begin(), cuts->bars.end(), [](const CutBar& bar) { return bar.stock == 1; }), 2);
}

TEST(CutLengths, GiveNothingWhenAPieceFitsNoBarOrStockRunsOut) {
  EXPECT_FALSE(cut_lengths({{2.0, 1.0, {}}}, {{2.1, 1}, {1.0, 1}}, 0.0));
  EXPECT_FALSE(cut_lengths({{2.0, 1.0, 1}}, {{1.5, 2}}, 0.0));
  EXPECT_FALSE(cut_lengths({}, {{1.5, 2}}, 0.0));
}

TEST(CutLengths, RefuseSizesThatCannotBe) {
  EXPECT_THROW((void)cut_lengths({{0.0, 1.0, {}}}, {{1.0, 1}}, 0.0), InputError);
  EXPECT_THROW((void)cut_lengths({{1.0, 1.0, {}}}, {{-1.0, 1}}, 0.0), InputError);
  EXPECT_THROW((void)cut_lengths({{1.0, 1.0, {}}}, {{1.0, 1}}, -0.1), InputError);
}

TEST(CutLengths, OfNothingAreNothing) {
  const auto cuts = cut_lengths({{1.0, 1.0, {}}}, {}, 0.0);
  ASSERT_TRUE(cuts);
  EXPECT_TRUE(cuts->bars.empty());
  EXPECT_TRUE(cuts->optimal());
}

}  // namespace
}  // namespace stillheap::cut
