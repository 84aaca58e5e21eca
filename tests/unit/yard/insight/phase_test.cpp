#include "yard/insight/phase.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "tracks.hpp"

namespace stillheap::insight {
namespace {

using test::daily;
using test::day_s;
using test::through;

Phase now(const std::vector<Track>& tracks, double day) { return phase_of(tracks, day * day_s).now; }

std::vector<Phase> phases(const PhaseAnswer& answer) {
  std::vector<Phase> list;
  for (const PhaseStep& step : answer.steps) list.push_back(step.phase);
  return list;
}

const std::vector<std::pair<double, double>> whole_year = {{0, 20}, {4, 62}, {12, 60}, {40, 35}, {80, 20}, {300, 15}};

TEST(Phase, IsUnknownWithoutReadingsAndAfterOneDay) {
  EXPECT_EQ(now({}, 3.0), Phase::unknown);
  EXPECT_EQ(now({daily("core", {30.0})}, 1.0), Phase::unknown);
  EXPECT_EQ(now({daily("core", {30.0, 33.0})}, 2.0), Phase::starting);
}

TEST(Phase, DoesNotCallAHeapWarmingThatOnlyGetsColder) {
  const auto text = [](const std::vector<double>& days) {
    return plain(phase_of(std::vector<Track>{daily("core", days)}, 4.0 * day_s).statement.text);
  };
  EXPECT_EQ(text({18.0, 16.0, 14.0, 12.0}),
            "The heap has not been hot yet, and it is no warmer than on the first day read.");
  EXPECT_EQ(text({18.0, 20.0, 24.0, 30.0}), "The heap has not been hot yet; it is warming.");
}

TEST(Phase, FollowsAHeapThroughItsYear) {
  const std::vector<Track> tracks = {through("core", whole_year)};
  EXPECT_EQ(phases(phase_of(tracks, 300.0 * day_s)),
            (std::vector<Phase>{Phase::starting, Phase::hot, Phase::cooling, Phase::curing}));
  EXPECT_EQ(now(tracks, 3.0), Phase::starting);
  EXPECT_EQ(now(tracks, 8.0), Phase::hot);
  EXPECT_EQ(now(tracks, 50.0), Phase::cooling);
  EXPECT_EQ(now(tracks, 120.0), Phase::curing);
}

TEST(Phase, SaysSinceWhenAndByWhichReading) {
  const std::vector<Track> tracks = {through("core", whole_year)};
  const PhaseAnswer answer = phase_of(tracks, 20.0 * day_s);
  EXPECT_NEAR(answer.steps.back().since_s / day_s, 3.33, 0.01) << "the first of the two days, not the second";
  EXPECT_NE(plain(answer.statement.reading).find("core"), std::string::npos);
  EXPECT_NE(plain(answer.statement.rule).find("45 degC"), std::string::npos);
}

TEST(Phase, IsNotMovedByOneWildReading) {
  std::vector<double> values(20, 58.0);
  values[12] = 12.0;
  const PhaseAnswer answer = phase_of(std::vector<Track>{daily("core", values)}, 20.0 * day_s);
  EXPECT_EQ(phases(answer), std::vector<Phase>{Phase::hot});
  std::vector<double> cold(10, 30.0);
  cold[5] = 75.0;
  EXPECT_EQ(now({daily("core", cold)}, 10.0), Phase::starting) << "neither hot nor then fallen from the wild height";
}

TEST(Phase, DoesNotFlutterBetweenItsLimits) {
  std::vector<double> values = {30.0, 46.0, 46.0};
  for (int i = 0; i < 20; ++i) values.push_back(i / 2 % 2 == 0 ? 41.0 : 46.0);
  EXPECT_EQ(phases(phase_of(std::vector<Track>{daily("core", values)}, 23.0 * day_s)), (std::vector<Phase>{Phase::hot}))
      << "between 40 and 45 degC it stays what it was";
}

TEST(Phase, KeepsItsStepsUnderNoise) {
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0.0, 2.0);
  for (int run = 0; run < 50; ++run) {
    Track track = through("core", whole_year);
    Track logged = track;
    logged.samples.clear();
    for (const Sample& sample : track.samples) {
      for (int hour = 0; hour < 8; ++hour)
        logged.samples.push_back({sample.time_s + hour * 3600.0, sample.value + noise(random)});
    }
    EXPECT_EQ(phases(phase_of(std::vector<Track>{logged}, 300.0 * day_s)),
              (std::vector<Phase>{Phase::starting, Phase::hot, Phase::cooling, Phase::curing}))
        << "run " << run;
  }
}

TEST(Phase, GoesByTheWarmestProbeAndNotByTheOneReadLast) {
  const Track core = through("core", {{0, 25}, {3, 60}, {30, 60}}, [](int day) { return day % 2 == 0; });
  const Track wall = through("wall", {{0, 15}, {30, 22}});
  EXPECT_EQ(phases(phase_of(std::vector<Track>{wall, core}, 30.0 * day_s)).back(), Phase::hot);
}

TEST(Phase, TellsNothingAcrossALongGap) {
  const auto gap = [](int day) { return day < 3 || day > 40; };
  const std::vector<Track> tracks = {through("core", {{0, 20}, {45, 38}}, gap)};
  EXPECT_EQ(now(tracks, 45.0), Phase::unknown) << "the hot time may have passed unseen";
  EXPECT_EQ(now({through("core", whole_year)}, 315.0), Phase::unknown) << "last read 15 days ago";
  const std::vector<Track> later = {through("core", whole_year, [](int day) { return day < 20 || day > 35; })};
  EXPECT_EQ(phases(phase_of(later, 60.0 * day_s)),
            (std::vector<Phase>{Phase::starting, Phase::hot, Phase::unknown, Phase::cooling}));
}

TEST(Phase, CuresOnlyAfterAWeekInWhichItStaysCool) {
  std::vector<double> values(10, 60.0);
  for (int i = 0; i < 6; ++i) values.push_back(25.0);
  EXPECT_EQ(now({daily("core", values)}, 16.0), Phase::cooling);
  values.push_back(27.5);
  for (int i = 0; i < 6; ++i) values.push_back(25.0);
  EXPECT_EQ(now({daily("core", values)}, 23.0), Phase::cooling) << "the count of cool days begins anew";
  values.insert(values.end(), 3, 25.0);
  EXPECT_EQ(now({daily("core", values)}, 26.0), Phase::curing);
  values.insert(values.end(), 3, 28.0);
  EXPECT_EQ(now({daily("core", values)}, 29.0), Phase::curing) << "within the hysteresis";
  values.insert(values.end(), 3, 33.0);
  EXPECT_EQ(now({daily("core", values)}, 32.0), Phase::cooling);
}

TEST(Phase, DoesNotCallAHeapCuringThatNeverBegan) {
  EXPECT_EQ(now({daily("core", std::vector<double>(60, 12.0))}, 60.0), Phase::starting);
}

TEST(Phase, CoolsWithoutHavingBeenHot) {
  EXPECT_EQ(now({through("core", {{0, 20}, {5, 42}, {10, 42}, {30, 28}})}, 30.0), Phase::cooling);
}

TEST(Phase, LooksAtNothingLaterThanNow) {
  const std::vector<Track> tracks = {through("core", whole_year)};
  EXPECT_EQ(phase_of(tracks, 8.0 * day_s).steps.size(), 2U);
}

}  // namespace
}  // namespace stillheap::insight
