#include "yard/insight/adviser.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tracks.hpp"
#include "yard/insight/alerts.hpp"

namespace stillheap::insight {
namespace {

using test::daily;
using test::day_s;
using test::one;

Advice advice(const std::vector<Track>& tracks, double day, bool frozen = false) {
  const PhaseAnswer phase = phase_of(tracks, day * day_s);
  HeapView heap;
  heap.tracks = tracks;
  heap.now_s = day * day_s;
  heap.phase = phase.now;
  heap.steps = phase.steps;
  Advice told{
      alerts_of(heap), ready_for_worms(tracks, heap.now_s, phase), ready_for_harvest(phase, {}, heap.now_s), {}, false};
  settle(told, frozen);
  return told;
}

std::string next_of(const Advice& told, const std::string& id) {
  const auto found =
      std::find_if(told.alerts.begin(), told.alerts.end(), [&](const Statement& alert) { return alert.id == id; });
  return found == told.alerts.end() ? "none" : found->next;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<double> cooled() {
  std::vector<double> values(25, 55.0);
  values.insert(values.end(), 15, 20.0);
  return values;
}

TEST(Adviser, OffersNoWormsWhereItIsTooDry) {
  const Track core = daily("core", cooled());
  EXPECT_EQ(advice({core, one(Sensed::moisture, "core", 39.0, 0.62)}, 40.0).worms.answer, Answer::yes);
  const Advice dry = advice({core, one(Sensed::moisture, "core", 39.0, 0.30)}, 40.0);
  EXPECT_EQ(dry.worms.answer, Answer::no);
  EXPECT_TRUE(dry.worms.statement.next.empty());
  EXPECT_TRUE(has(next_of(dry, "dry"), "Sprinkle longer"));
}

TEST(Adviser, SaysOneThingOfTheWater) {
  const Track core = daily("core", {30.0, 48.0, 55.0});
  const Track dry = one(Sensed::moisture, "wall", 2.0, 0.30);
  const Track airless = one(Sensed::oxygen, "core", 2.0, 0.02);
  const Advice both = advice({core, dry, airless}, 3.0);
  EXPECT_TRUE(has(next_of(both, "dry"), "Sprinkle longer"));
  EXPECT_FALSE(has(next_of(both, "oxygen-low"), "prinkling")) << next_of(both, "oxygen-low");
  EXPECT_TRUE(has(next_of(advice({core, airless}, 3.0), "oxygen-low"), "No sprinkling"));
  const Advice soaked = advice({daily("core", {30.0, 60.0, 72.0}), one(Sensed::moisture, "core", 2.0, 0.75)}, 3.0);
  EXPECT_TRUE(has(next_of(soaked, "soaked"), "Stop sprinkling"));
  EXPECT_FALSE(has(next_of(soaked, "too-hot"), "Sprinkle longer"));
  EXPECT_TRUE(soaked.no_sprinkling.has_value());
}

TEST(Adviser, NamesUnevenWaterOnceInsteadOfMoreAndLess) {
  const Advice uneven = advice({daily("core", {30.0, 48.0, 55.0}), one(Sensed::moisture, "wall", 2.0, 0.30),
                                one(Sensed::moisture, "base", 2.0, 0.80)},
                               3.0);
  ASSERT_EQ(uneven.alerts.size(), 1U);
  EXPECT_EQ(uneven.alerts[0].id, "water-uneven");
}

TEST(Adviser, LetsAFireSilenceAllElse) {
  const Advice fire = advice({daily("core", {40.0, 60.0, 86.0}), one(Sensed::oxygen, "core", 2.0, 0.02),
                              one(Sensed::moisture, "base", 2.0, 0.80)},
                             3.0);
  EXPECT_EQ(fire.alerts.front().id, "fire-risk");
  EXPECT_TRUE(fire.hands_off);
  EXPECT_EQ(next_of(fire, "oxygen-low"), "none") << "clearing channels feeds a fire";
  EXPECT_TRUE(has(next_of(fire, "fire-risk"), "from a distance"));
  EXPECT_FALSE(has(next_of(fire, "soaked"), "Stop sprinkling"));
}

TEST(Adviser, SaysNothingElseOfWaterInAFire) {
  const Advice fire = advice({daily("core", {40.0, 60.0, 78.0}), one(Sensed::moisture, "core", 2.0, 0.30),
                              one(Sensed::moisture, "side", 2.0, 0.38)},
                             3.0);
  EXPECT_EQ(fire.alerts.front().id, "fire-risk");
  EXPECT_EQ(next_of(fire, "dry"), "none") << "\"test again in a week\" stood beside \"keep people away\"";
}

TEST(Adviser, CountsUnreadMoistureAsDry) {
  EXPECT_EQ(advice({daily("core", {40.0, 60.0, 76.0})}, 3.0).alerts.front().id, "fire-risk");
  const Advice watched = advice({daily("core", {40.0, 60.0, 71.0})}, 3.0);
  EXPECT_EQ(watched.alerts.front().id, "too-hot");
  EXPECT_TRUE(has(plain(watched.alerts.front().text), "measure the moisture today"));
  EXPECT_TRUE(has(watched.alerts.front().next, "add no extra cover"));
  EXPECT_TRUE(has(watched.alerts.front().caution, "fire service"));
  const Advice wet = advice({daily("core", {40.0, 60.0, 76.0}), one(Sensed::moisture, "core", 2.0, 0.6)}, 3.0);
  EXPECT_EQ(wet.alerts.front().id, "too-hot");
}

TEST(Adviser, AsksForNoWaterWhileItIsFrozen) {
  const std::vector<Track> dry = {daily("core", {30.0, 48.0, 55.0}), one(Sensed::moisture, "wall", 2.0, 0.30)};
  const Advice frozen = advice(dry, 3.0, true);
  EXPECT_FALSE(has(next_of(frozen, "dry"), "Sprinkle longer"));
  EXPECT_TRUE(has(next_of(frozen, "dry"), "until it thaws"));
  EXPECT_TRUE(advice({daily("core", {30.0, 48.0, 55.0})}, 3.0, true).no_sprinkling.has_value());
  EXPECT_FALSE(advice({daily("core", {30.0, 48.0, 55.0})}, 3.0).no_sprinkling.has_value());
}

}  // namespace
}  // namespace stillheap::insight
