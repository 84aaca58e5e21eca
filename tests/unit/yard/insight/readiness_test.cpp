#include "yard/insight/readiness.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tracks.hpp"

namespace stillheap::insight {
namespace {

using test::daily;
using test::day_s;
using test::through;

std::vector<double> days(int hot, int cool, double cool_c = 24.0) {
  std::vector<double> values(static_cast<std::size_t>(hot), 55.0);
  values.insert(values.end(), static_cast<std::size_t>(cool), cool_c);
  return values;
}

TEST(Worms, WaitForAWeekBelowTheirLimitAtEveryProbe) {
  const Track core = daily("core", days(25, 10));
  EXPECT_EQ(ready_for_worms(std::vector<Track>{core}, 35.0 * day_s).answer, Answer::yes);
  EXPECT_EQ(ready_for_worms(std::vector<Track>{daily("core", days(25, 7))}, 32.0 * day_s).answer, Answer::no);
  const Track base = daily("base", days(31, 4));
  EXPECT_EQ(ready_for_worms(std::vector<Track>{core, base}, 35.0 * day_s).answer, Answer::no);
  EXPECT_EQ(ready_for_worms(std::vector<Track>{daily("core", days(25, 10, 26.8))}, 35.0 * day_s).answer, Answer::no);
}

TEST(Worms, BeginTheirWeekAnewAfterAWarmReading) {
  std::vector<double> values = days(25, 5);
  values.push_back(27.0);
  values.insert(values.end(), 5, 24.0);
  EXPECT_EQ(ready_for_worms(std::vector<Track>{daily("core", values)}, 36.0 * day_s).answer, Answer::no);
}

TEST(Worms, AreNotPromisedOnOldReadingsOrNone) {
  EXPECT_EQ(ready_for_worms({}, 60.0 * day_s).answer, Answer::unknown);
  EXPECT_EQ(ready_for_worms(std::vector<Track>{daily("core", days(25, 10))}, 60.0 * day_s).answer, Answer::unknown);
  EXPECT_EQ(ready_for_worms(std::vector<Track>{daily("core", days(0, 20))}, 20.0 * day_s).answer, Answer::no)
      << "a cool start may still heat up";
}

TEST(Worms, TakeWeeklyReadings) {
  const Track weekly = through("core", {{0, 50}, {30, 24}, {60, 22}}, [](int day) { return day % 7 == 0; });
  EXPECT_EQ(ready_for_worms(std::vector<Track>{weekly}, 60.0 * day_s).answer, Answer::yes);
}

std::vector<Track> year() { return {through("core", {{0, 20}, {4, 60}, {40, 35}, {80, 20}, {300, 15}})}; }

const LabValue stable = {"self_heating_rise", 12.0, "K", "", 280 * day_s, false};
const LabValue clean = {"fecal_coliform", 300.0, "MPN/g dry", "", 280 * day_s, false};

TEST(Harvest, NeedsAgeCuringStabilityAndGerms) {
  const std::vector<Track> tracks = year();
  const PhaseAnswer phase = phase_of(tracks, 295.0 * day_s);
  const auto answer = [&](const std::vector<LabValue>& tests, double day = 295.0) {
    return ready_for_harvest(phase, tests, day * day_s).answer;
  };
  EXPECT_EQ(answer({stable, clean}), Answer::yes);
  EXPECT_EQ(answer({stable}), Answer::unknown) << "never yes without the test";
  EXPECT_EQ(answer({stable, clean}, 200.0), Answer::no);
  LabValue hot = stable;
  hot.value = 25.0;
  EXPECT_EQ(answer({hot, clean}), Answer::no);
  LabValue dirty = clean;
  dirty.value = 1000.0;
  EXPECT_EQ(answer({stable, dirty}), Answer::no);
  LabValue of_lot = clean;
  of_lot.of_lot = true;
  EXPECT_EQ(answer({stable, of_lot}), Answer::unknown) << "a lot's test says nothing of the compost";
}

TEST(LabTests, AreJudgedInTheirOwnUnitOnly) {
  const auto judged = judge_tests(std::vector<LabValue>{{"arsenic", 42.0, "mg/kg dry", "", 0.0, false},
                                                        {"lead", 0.2, "g/kg dry", "", 0.0, false},
                                                        stable,
                                                        {"germination_index", 85.0, "%", "", 0.0, false}});
  ASSERT_EQ(judged.size(), 4U);
  EXPECT_EQ(plain(judged[0].text), "Does not pass: arsenic.");
  EXPECT_EQ(judged[0].weight, Severity::warning);
  EXPECT_NE(plain(judged[1].text).find("not judged"), std::string::npos);
  EXPECT_NE(plain(judged[2].text).find("class IV"), std::string::npos);
  EXPECT_NE(plain(judged[3].text).find("mature"), std::string::npos);
}

TEST(LabTests, CountTheLastOfEachKey) {
  const auto judged = judge_tests(std::vector<LabValue>{{"arsenic", 20.0, "mg/kg dry", "", 300.0, false},
                                                        {"arsenic", 45.0, "mg/kg dry", "", 100.0, false}});
  ASSERT_EQ(judged.size(), 1U);
  EXPECT_EQ(plain(judged[0].text), "Passes: arsenic.");
}

TEST(Salt, IsComparedBeforeAndAfter) {
  const LabValue manure = {"conductivity", 4.0, "dS/m", "1:5", -5.0 * day_s, true};
  const LabValue early = {"conductivity", 3.0, "dS/m", "1:5", 0.0, false};
  const LabValue late = {"conductivity", 1.5, "dS/m", "1:5", 280.0 * day_s, false};
  EXPECT_FALSE(salt_change(std::vector<LabValue>{late}).has_value());
  const auto from_heap = salt_change(std::vector<LabValue>{manure, early, late});
  ASSERT_TRUE(from_heap.has_value());
  EXPECT_NE(plain(from_heap->text).find("less salty: 50 %"), std::string::npos) << plain(from_heap->text);
  const auto from_lot = salt_change(std::vector<LabValue>{manure, late});
  ASSERT_TRUE(from_lot.has_value());
  EXPECT_NE(plain(from_lot->text).find("37.5 %"), std::string::npos);
  LabValue paste = late;
  paste.method = "saturated paste";
  EXPECT_NE(plain(salt_change(std::vector<LabValue>{early, paste})->text).find("cannot be compared"),
            std::string::npos);
}

}  // namespace
}  // namespace stillheap::insight
