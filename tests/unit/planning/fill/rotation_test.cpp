#include "planning/fill/rotation.hpp"

#include <gtest/gtest.h>

namespace stillheap::fill {
namespace {

struct Case {
  vessel::Design design;
  FillPlan fill;
  material::Bath bath;
  Practice practice;
};

/// 20 pails in lifts of 7, two batches of 40 minutes each; two people carry 10 pails an hour together.
Case usual() {
  Case c;
  c.design.fill_height_m = 1.0;
  c.fill.pails = 20;
  c.fill.lifts = 3;
  c.fill.soak.batches = 2;
  c.bath.soak_s = 1800.0;
  c.bath.drain_s = 600.0;
  c.practice.pails_a_lift = 7;
  c.practice.people = 2;
  c.practice.pails_per_person_hour = 5.0;
  return c;
}

std::vector<LiftTurn> turns_of(const Case& c) { return rotation_of(c.design, c.fill, c.bath, c.practice); }

TEST(Rotation, SharesAllPailsOverTheLiftsAndReachesTheFillHeight) {
  const auto turns = turns_of(usual());
  ASSERT_EQ(turns.size(), 3U);
  EXPECT_EQ(turns[0].pails, 7);
  EXPECT_EQ(turns[2].pails, 6);
  EXPECT_EQ(turns[2].pails_so_far, 20);
  EXPECT_NEAR(turns[0].height_m, 0.35, 1e-12);
  EXPECT_NEAR(turns[2].height_m, 1.0, 1e-12);
}

TEST(Rotation, WaitsForTheBatchALiftReachesInto) {
  // Lift 1: pails 1 to 7 of batch 1, drained at 40 min, spread in 42 min. Lift 2 reaches into batch 2, drained at 80
  // min.
  const auto turns = turns_of(usual());
  EXPECT_EQ(turns[0].first_batch, 1);
  EXPECT_EQ(turns[0].last_batch, 1);
  EXPECT_EQ(turns[1].first_batch, 1);
  EXPECT_EQ(turns[1].last_batch, 2);
  EXPECT_EQ(turns[2].first_batch, 2);
  EXPECT_NEAR(turns[0].start_s, 2400.0, 1e-9);
  EXPECT_NEAR(turns[0].end_s, 2400.0 + 2520.0, 1e-9);
  EXPECT_NEAR(turns[1].start_s, 4920.0, 1e-9) << "the batch has been ready for two minutes";
  EXPECT_NEAR(turns[2].end_s, 4920.0 + 2520.0 + 2160.0, 1e-9);
  Case slow = usual();
  slow.bath.soak_s = 6600.0;
  EXPECT_NEAR(turns_of(slow)[1].start_s, 2 * 7200.0, 1e-9) << "now the bath sets the pace";
}

TEST(Rotation, ALiftThatEndsWithABatchDoesNotWaitForTheNext) {
  Case c = usual();
  c.practice.pails_a_lift = 10;
  const auto turns = turns_of(c);
  ASSERT_EQ(turns.size(), 2U);
  EXPECT_EQ(turns[0].last_batch, 1);
  EXPECT_EQ(turns[1].first_batch, 2);
}

TEST(Rotation, SecondBathHalvesTheWaiting) {
  Case c = usual();
  c.fill.soak.batches = 8;
  c.bath.soak_s = 6600.0;  // two hours a batch with draining
  EXPECT_NEAR(turns_of(c)[2].start_s, 8 * 7200.0, 1e-9);
  c.practice.baths = 2;
  EXPECT_NEAR(turns_of(c)[2].start_s, 4 * 7200.0, 1e-9);
}

TEST(Rotation, BeginsAtOnceWhenNothingIsSoaked) {
  Case c = usual();
  c.fill.soak.too_wet_already = true;
  EXPECT_EQ(turns_of(c)[0].start_s, 0.0);
  EXPECT_EQ(turns_of(c)[0].last_batch, 0);
  c.fill.pails = 0;
  EXPECT_TRUE(turns_of(c).empty());
}

}  // namespace
}  // namespace stillheap::fill
