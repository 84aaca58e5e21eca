#include <gtest/gtest.h>

#include "draw.hpp"
#include "judge.hpp"

namespace stillheap::sweep {
namespace {

// A share of what `sweep --count 500 --seed 1` runs.
constexpr std::uint64_t seed = 1;
constexpr int share = 40;

class RandomVessel : public testing::TestWithParam<int> {};

TEST_P(RandomVessel, FinishesOrStopsForAPhysicalReason) {
  const Case one = draw(seed, GetParam());
  const Verdict verdict = judge(one);
  for (const std::string& fault : verdict.faults) ADD_FAILURE() << fault << "\n" << one.toml;
}

INSTANTIATE_TEST_SUITE_P(Share, RandomVessel, testing::Range(0, share));

TEST(Draw, GivesTheSameCaseWhateverWasDrawnBefore) {
  const Case first = draw(seed, 3);
  (void)draw(seed, 7);
  EXPECT_EQ(draw(seed, 3).toml, first.toml);
  EXPECT_NE(draw(seed, 4).toml, first.toml);
  EXPECT_NE(draw(seed + 1, 3).toml, first.toml);
}

}  // namespace
}  // namespace stillheap::sweep
