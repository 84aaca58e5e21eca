#include "planning/cut/strips.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>

#include "core/base/error.hpp"

namespace stillheap::cut {
namespace {

struct Side {
  double along_m = 0.0, across_m = 0.0;
};

/// The slow and certain way: every turn of every piece, every parting into strips and of a strip into stacks.
class BruteForce {
 public:
  BruteForce(double width_m, const std::vector<Rectangle>& wants) : width_m_(width_m) {
    for (const Rectangle& want : wants)
      pieces_.insert(pieces_.end(), static_cast<std::size_t>(want.count), {want.length_m, want.width_m});
  }

  double shortest() {
    const unsigned all = (1U << pieces_.size()) - 1U;
    std::vector<double> strip(all + 1, std::numeric_limits<double>::infinity());
    for (unsigned turns = 0; turns <= all; ++turns) {
      for (unsigned set = 1; set <= all; ++set) {
        if ((turns & ~set) != 0) continue;  // turns of pieces that are not there
        std::vector<std::vector<Side>> stacks;
        place(set, turns, stacks, strip[set]);
      }
    }
    std::vector<double> best(all + 1, std::numeric_limits<double>::infinity());
    best[0] = 0.0;
    for (unsigned set = 1; set <= all; ++set)
      for (unsigned last = set; last > 0; last = (last - 1) & set)
        best[set] = std::min(best[set], best[set & ~last] + strip[last]);
    return best[all];
  }

 private:
  void place(unsigned todo, unsigned turns, std::vector<std::vector<Side>>& stacks, double& best) {
    if (todo == 0) {
      best = std::min(best, length_of(stacks));
      return;
    }
    unsigned i = 0;
    while ((todo >> i & 1U) == 0) ++i;
    const Side& piece = pieces_[i];
    const Side side = (turns >> i & 1U) != 0 ? Side{piece.across_m, piece.along_m} : piece;
    for (std::size_t k = 0; k < stacks.size(); ++k) {
      if (stacks[k].size() == 3) continue;
      stacks[k].push_back(side);
      place(todo & (todo - 1U), turns, stacks, best);
      stacks[k].pop_back();
    }
    stacks.push_back({side});
    place(todo & (todo - 1U), turns, stacks, best);
    stacks.pop_back();
  }

  [[nodiscard]] double length_of(const std::vector<std::vector<Side>>& stacks) const {
    double across_m = 0.0;
    double longest_m = 0.0;
    for (const auto& stack : stacks) {
      double wide_m = 0.0;
      double long_m = 0.0;
      for (const Side& side : stack) {
        wide_m = std::max(wide_m, side.across_m);
        long_m += side.along_m;
      }
      across_m += wide_m;
      longest_m = std::max(longest_m, long_m);
    }
    return across_m <= width_m_ + 1e-6 ? longest_m : std::numeric_limits<double>::infinity();
  }

  double width_m_;
  std::vector<Side> pieces_;
};

void expect_sound(const StripCuts& cuts, double width_m, const std::vector<Rectangle>& wants) {
  std::vector<int> got(wants.size(), 0);
  double length_m = 0.0;
  for (const Strip& strip : cuts.strips) {
    length_m += strip.length_m;
    for (std::size_t i = 0; i < strip.pieces.size(); ++i) {
      const Placed& a = strip.pieces[i];
      ++got[a.want];
      EXPECT_NEAR(a.along_m * a.across_m, wants[a.want].length_m * wants[a.want].width_m, 1e-9);
      EXPECT_LE(a.x_m + a.along_m, strip.length_m + 1e-9);
      EXPECT_LE(a.y_m + a.across_m, width_m + 1e-6);
      for (std::size_t j = i + 1; j < strip.pieces.size(); ++j) {
        const Placed& b = strip.pieces[j];
        const bool apart = a.x_m + a.along_m <= b.x_m + 1e-9 || b.x_m + b.along_m <= a.x_m + 1e-9 ||
                           a.y_m + a.across_m <= b.y_m + 1e-9 || b.y_m + b.across_m <= a.y_m + 1e-9;
        EXPECT_TRUE(apart) << "two pieces lie over each other";
      }
    }
  }
  for (std::size_t i = 0; i < wants.size(); ++i) EXPECT_EQ(got[i], wants[i].count);
  EXPECT_NEAR(length_m, cuts.length_m, 1e-9);
}

TEST(CutStrips, AreAsShortAsTheSlowAndCertainWay) {
  std::mt19937 random(5U);
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  int solved = 0;
  for (int trial = 0; trial < 150; ++trial) {
    const double width_m = 0.1 * whole(10, 40);
    std::vector<Rectangle> wants;
    int pieces = 0;
    for (int i = whole(1, 3); i > 0 && pieces < 6; --i) {
      wants.push_back({0.1 * whole(4, 45), 0.1 * whole(4, 20), whole(1, std::min(3, 6 - pieces))});
      pieces += wants.back().count;
    }
    const double certain = BruteForce(width_m, wants).shortest();
    const auto cuts = cut_strips(width_m, 1000.0, wants);
    ASSERT_EQ(cuts.has_value(), std::isfinite(certain)) << trial;
    if (!cuts) continue;
    ++solved;
    EXPECT_NEAR(cuts->length_m, certain, 1e-6) << trial;
    EXPECT_TRUE(cuts->optimal()) << trial;
    expect_sound(*cuts, width_m, wants);
  }
  EXPECT_GT(solved, 75);
}

TEST(CutStrips, LayShortPiecesBehindEachOtherBesideALongOne) {
  // 6 ft by 13 ft and two of 6 ft by 6 ft from a roll of 12 ft.
  const auto cuts = cut_strips(12.0, 100.0, {{13.0, 6.0, 1}, {6.0, 6.0, 2}});
  ASSERT_TRUE(cuts);
  EXPECT_NEAR(cuts->length_m, 13.0, 1e-9);
  EXPECT_EQ(cuts->strips.size(), 1U);
}

TEST(CutStrips, KeepStripsWithinTheRoll) {
  const auto cuts = cut_strips(12.0, 6.5, {{6.0, 6.0, 4}});
  ASSERT_TRUE(cuts);
  EXPECT_NEAR(cuts->length_m, 12.0, 1e-9);
  EXPECT_EQ(cuts->strips.size(), 2U);
}

TEST(CutStrips, OfManyVesselsStaySoundAndSayTheirBound) {
  const std::vector<Rectangle> wants{{4.2, 1.8, 14}, {1.9, 1.9, 28}, {6.5, 1.7, 6}, {2.9, 1.7, 12}};
  const auto cuts = cut_strips(3.8, 100.0, wants);
  ASSERT_TRUE(cuts);
  expect_sound(*cuts, 3.8, wants);
  EXPECT_LE(cuts->bound_m, cuts->length_m + 1e-9);
  EXPECT_LT(cuts->length_m, 1.15 * cuts->bound_m);
}

TEST(CutStrips, GiveNothingWhenAPieceFitsNeitherWay) {
  EXPECT_FALSE(cut_strips(1.0, 10.0, {{1.5, 1.2, 1}}));
  EXPECT_FALSE(cut_strips(2.0, 3.0, {{3.5, 1.2, 1}}));
  EXPECT_TRUE(cut_strips(2.0, 3.0, {{1.2, 3.5, 0}})) << "nothing is wanted";
}

TEST(CutStrips, RefuseSizesThatCannotBe) { EXPECT_THROW((void)cut_strips(1.0, 10.0, {{0.0, 1.2, 1}}), InputError); }

}  // namespace
}  // namespace stillheap::cut
