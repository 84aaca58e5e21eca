#include "yard/insight/alerts.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "tracks.hpp"

namespace stillheap::insight {
namespace {

using test::daily;
using test::day_s;
using test::one;

std::vector<Statement> look(
    const std::vector<Track>& tracks, double day, const std::function<void(HeapView&)>& change = [](HeapView&) {}) {
  const PhaseAnswer phase = phase_of(tracks, day * day_s);
  HeapView heap;
  heap.tracks = tracks;
  heap.now_s = day * day_s;
  heap.phase = phase.now;
  heap.steps = phase.steps;
  change(heap);
  return alerts_of(heap);
}

bool has(const std::vector<Statement>& alerts, const std::string& id) {
  return std::any_of(alerts.begin(), alerts.end(), [&](const Statement& one) { return one.id == id; });
}

const Statement& find(const std::vector<Statement>& alerts, const std::string& id) {
  return *std::find_if(alerts.begin(), alerts.end(), [&](const Statement& one) { return one.id == id; });
}

TEST(Alerts, AreSilentForAHeapThatDoesWell) {
  EXPECT_TRUE(look({daily("core", {25.0, 45.0, 58.0, 60.0, 61.0, 60.0}), one(Sensed::moisture, "core", 5.0, 0.6),
                    one(Sensed::oxygen, "core", 5.0, 0.12)},
                   6.0)
                  .empty());
}

TEST(Alerts, SayWhenAHeapDoesNotHeat) {
  const std::vector<Track> tracks = {daily("core", std::vector<double>(9, 28.0))};
  EXPECT_FALSE(has(look(tracks, 6.5), "not-heating"));
  EXPECT_TRUE(has(look(tracks, 8.5), "not-heating"));
}

TEST(Alerts, AReadingOfFireIsNotClearedByACoolerOneAtOnce) {
  const auto core = [](std::vector<Sample> samples) {
    return Track{Sensed::temperature, {"core", {}, {}, {}, {}}, std::move(samples)};
  };
  const double fire_s = 3.0 * day_s;
  EXPECT_TRUE(has(look({core({{fire_s, 86.0}, {fire_s + 2.0, 70.0}})}, 3.1), "fire-risk"));
  EXPECT_TRUE(has(look({core({{fire_s, 86.0}, {fire_s + 2.0, 40.0}})}, 10.0), "fire-risk")) << "not read again since";
  EXPECT_FALSE(
      has(look({core({{fire_s, 86.0}, {fire_s + 2.0, 70.0}, {fire_s + 0.6 * day_s, 68.0}})}, 3.7), "fire-risk"));
  EXPECT_TRUE(has(look({core({{fire_s, 86.0}})}, 9.0), "fire-risk")) << "older than a fresh reading, and not cleared";
  EXPECT_FALSE(has(look({core({{fire_s, 86.0}})}, 20.0), "fire-risk"));
}

TEST(Alerts, TakeOneDangerousReadingSeriouslyAtOnce) {
  const auto hot = look({daily("core", {40.0, 60.0, 72.0})}, 3.0);
  ASSERT_TRUE(has(hot, "too-hot"));
  EXPECT_NE(plain(find(hot, "too-hot").reading).find("core: 72 degC"), std::string::npos);
  const auto fire = look({daily("core", {40.0, 60.0, 86.0})}, 3.0);
  ASSERT_TRUE(has(fire, "fire-risk"));
  EXPECT_EQ(fire.front().id, "fire-risk") << "the most pressing first";
  EXPECT_FALSE(find(fire, "fire-risk").caution.empty());
  EXPECT_TRUE(
      has(look({daily("core", {40.0, 60.0, 72.0}), one(Sensed::moisture, "top", 2.0, 0.38)}, 3.0), "fire-risk"));
  EXPECT_FALSE(has(look({daily("core", {40.0, 60.0, 69.9})}, 3.0), "too-hot"));
}

TEST(Alerts, ForgetAnOldHotReading) { EXPECT_FALSE(has(look({daily("core", {40.0, 60.0, 72.0})}, 9.0), "too-hot")); }

TEST(Alerts, SeeAFallFromOneDayToTheNext) {
  EXPECT_TRUE(has(look({daily("core", {45.0, 60.0, 60.0, 44.0})}, 4.0), "cooling-fast"));
  EXPECT_FALSE(has(look({daily("core", {45.0, 60.0, 60.0, 46.0})}, 4.0), "cooling-fast"));
  EXPECT_FALSE(has(look({daily("core", {30.0, 38.0, 38.0, 20.0})}, 4.0), "cooling-fast")) << "was not hot";
  Track gap = daily("core", {45.0, 60.0, 60.0});
  gap.samples.push_back({6.0 * day_s, 44.0});
  EXPECT_FALSE(has(look({gap}, 6.0), "cooling-fast")) << "four days lie between";
}

TEST(Alerts, SeeAShortHotPhase) {
  EXPECT_TRUE(has(look({daily("core", {30.0, 48.0, 50.0, 38.0, 36.0, 35.0})}, 6.0), "hot-too-short"));
  EXPECT_FALSE(has(look({daily("core", {30.0, 48.0, 50.0, 50.0, 50.0, 38.0, 36.0})}, 7.0), "hot-too-short"));
}

TEST(Alerts, JudgeWaterAndAir) {
  const Track core = daily("core", {30.0, 48.0, 55.0});
  EXPECT_TRUE(has(look({core, one(Sensed::moisture, "wall", 2.0, 0.39)}, 3.0), "dry"));
  EXPECT_FALSE(has(look({core, one(Sensed::moisture, "wall", 2.0, 0.40)}, 3.0), "dry"));
  EXPECT_TRUE(has(look({core, one(Sensed::moisture, "base", 2.0, 0.71)}, 3.0), "soaked"));
  EXPECT_TRUE(has(look({core, one(Sensed::oxygen, "core", 2.0, 0.04)}, 3.0), "oxygen-low"));
  EXPECT_TRUE(has(look({core, one(Sensed::carbon_dioxide, "core", 2.0, 0.18)}, 3.0), "oxygen-low"));
  EXPECT_FALSE(has(look({core, one(Sensed::oxygen, "core", 2.0, 0.04)}, 20.0), "oxygen-low")) << "18 days old";
}

TEST(Alerts, SuspectAChannelWhenOnePlaceLacksAirAndAnotherDoesNot) {
  const std::vector<Track> tracks = {daily("core", {30.0, 48.0, 55.0}), one(Sensed::oxygen, "north", 2.0, 0.03),
                                     one(Sensed::oxygen, "south", 2.2, 0.14)};
  EXPECT_TRUE(has(look(tracks, 3.0), "channel-blocked"));
  EXPECT_FALSE(has(look(tracks, 3.0, [](HeapView& heap) { heap.has_channels = false; }), "channel-blocked"));
  EXPECT_FALSE(has(look(tracks, 3.0, [](HeapView& heap) { heap.channel_cleared_s = 2.5 * day_s; }), "channel-blocked"));
  EXPECT_FALSE(has(look({tracks[0], tracks[1], one(Sensed::oxygen, "south", 2.2, 0.06)}, 3.0), "channel-blocked"));
}

TEST(Alerts, MissReadings) {
  EXPECT_FALSE(has(look({}, 1.0), "readings-missing"));
  EXPECT_TRUE(has(look({}, 2.0), "readings-missing"));
  const std::vector<Track> young = {daily("core", {30.0, 48.0, 55.0})};
  EXPECT_FALSE(has(look(young, 3.4), "readings-missing"));
  EXPECT_TRUE(has(look(young, 4.0), "readings-missing"));
  const std::vector<Track> old = {daily("core", std::vector<double>(70, 30.0))};
  EXPECT_FALSE(has(look(old, 76.0), "readings-missing")) << "weekly will do";
  EXPECT_TRUE(has(look(old, 78.5), "readings-missing"));
}

TEST(Alerts, StandInTheBookOfRules) {
  std::ostringstream book;
  book << std::ifstream(std::string(STILLHEAP_SOURCE_DIR) + "/docs/rules.md").rdbuf();
  for (const AlertRule& rule : alert_rules()) {
    EXPECT_NE(book.str().find("`" + std::string(rule.id) + "`"), std::string::npos) << rule.id;
    EXPECT_FALSE(std::string(rule.source).empty());
    EXPECT_FALSE(std::string(rule.next).empty());
  }
}

}  // namespace
}  // namespace stillheap::insight
