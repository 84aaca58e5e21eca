#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "planning/plan/count_step.hpp"

namespace stillheap::plan {
namespace {

site::Site yard_of(const std::vector<int>& counts) {
  site::Site site;
  for (const int count : counts) {
    vessel::Design design;
    design.count = count;
    site.vessels.push_back(design);
  }
  return site;
}

TEST(Counts, ReduceToTheSmallestSet) {
  EXPECT_EQ(smallest_set(yard_of({4, 2}).vessels), (std::vector<int>{2, 1}));
  EXPECT_EQ(smallest_set(yard_of({3}).vessels), (std::vector<int>{1}));
}

TEST(Counts, ShareTheWantedNumberOut) {
  site::Site site = yard_of({2, 1});
  site.goal.vessels = 5;
  EXPECT_EQ(starting_counts(site), (std::vector<int>{3, 2}));
  site.goal.vessels = 6;
  EXPECT_EQ(starting_counts(site), (std::vector<int>{4, 2}));
  site.goal = {};
  site.goal.compost_m3 = 3.0;
  EXPECT_EQ(starting_counts(site), (std::vector<int>{2, 1}));
}

TEST(Counts, RoundSetsUpButNotAWholeNumber) {
  EXPECT_EQ(sets_for(3.0, 0.6), 5);
  EXPECT_EQ(sets_for(3.01, 0.6), 6);
  EXPECT_EQ(sets_for(0.1, 0.6), 1);
  EXPECT_EQ(sets_for(0.3, 0.1), 3);
  EXPECT_THROW(static_cast<void>(sets_for(1.0, 0.0)), RunError);
}

TEST(Counts, SumTheBandsOfAllVessels) {
  const forecast::Banded sum = finished_volume_m3({{0.6, 0.5, 0.7}, {1.0, 0.8, 1.2}}, {2, 1});
  EXPECT_DOUBLE_EQ(sum.low, 1.8);
  EXPECT_DOUBLE_EQ(sum.middle, 2.2);
  EXPECT_DOUBLE_EQ(sum.high, 2.6);
}

}  // namespace
}  // namespace stillheap::plan
