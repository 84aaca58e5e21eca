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

Answer worms(std::vector<Track> tracks, double day, double moisture = 0.62, const Outside& outside = {}) {
  if (moisture > 0.0) tracks.push_back(test::one(Sensed::moisture, "core", day - 1.0, moisture));
  const PhaseAnswer phase = phase_of(tracks, day * day_s, {}, outside);
  return ready_for_worms(tracks, day * day_s, phase, outside).answer;
}

TEST(Worms, WaitForAWeekBelowTheirLimitAtEveryProbe) {
  const Track core = daily("core", days(25, 10));
  EXPECT_EQ(worms({core}, 35.0), Answer::yes);
  EXPECT_EQ(worms({daily("core", days(25, 7))}, 32.0), Answer::no);
  EXPECT_EQ(worms({core, daily("base", days(31, 4))}, 35.0), Answer::no);
  EXPECT_EQ(worms({daily("core", days(25, 10, 26.8))}, 35.0), Answer::no);
}

TEST(Worms, AreNotPutIntoTheColdOrTheDry) {
  EXPECT_EQ(worms({daily("core", days(25, 10, 1.0))}, 35.0), Answer::no) << "34 degF";
  EXPECT_EQ(worms({daily("core", days(25, 10))}, 35.0, 0.30), Answer::no);
  EXPECT_EQ(worms({daily("core", days(25, 10))}, 35.0, 0.0), Answer::unknown) << "moisture was not read";
  EXPECT_EQ(worms({daily("core", days(25, 10)), test::one(Sensed::oxygen, "core", 34.0, 0.04)}, 35.0), Answer::no);
}

TEST(Worms, WaitForTheEndOfSelfHeatingAndForFrost) {
  Outside outside;
  for (int day = 0; day <= 60; ++day) outside.twin.push_back({1.0 * day, 15.0, 15.0});
  outside.coldest_ahead_c = 5.0;
  EXPECT_EQ(worms({daily("core", days(25, 20, 24.0))}, 45.0, 0.62, outside), Answer::no)
      << "9 K above what makes no heat";
  EXPECT_EQ(worms({daily("core", days(25, 20, 17.0))}, 45.0, 0.62, outside), Answer::yes);
  EXPECT_EQ(worms({daily("core", days(25, 10, 17.0))}, 35.0, 0.62, outside), Answer::no) << "ten days are not 14";
  outside.coldest_ahead_c = -2.0;
  EXPECT_EQ(worms({daily("core", days(25, 20, 17.0))}, 45.0, 0.62, outside), Answer::no);
}

TEST(Worms, AreToldWhereToGoAndWithTheirCaution) {
  const std::vector<Track> tracks = {daily("core", days(25, 10)), test::one(Sensed::moisture, "core", 34.0, 0.62)};
  const Readiness ready = ready_for_worms(tracks, 35.0 * day_s, phase_of(tracks, 35.0 * day_s));
  EXPECT_NE(ready.statement.next.find(rules::worms::place), std::string::npos);
  EXPECT_NE(ready.statement.caution.find(rules::worms::caution), std::string::npos);
}

TEST(Worms, BeginTheirWeekAnewAfterAWarmReading) {
  std::vector<double> values = days(25, 5);
  values.push_back(27.0);
  values.insert(values.end(), 5, 24.0);
  EXPECT_EQ(worms({daily("core", values)}, 36.0), Answer::no);
}

TEST(Worms, AreNotPromisedOnOldReadingsOrNone) {
  EXPECT_EQ(worms({}, 60.0), Answer::unknown);
  EXPECT_EQ(worms({daily("core", days(25, 10))}, 60.0), Answer::unknown);
  EXPECT_EQ(worms({daily("core", days(0, 20))}, 20.0), Answer::no) << "a cool start may still heat up";
}

TEST(Worms, TakeWeeklyReadings) {
  const Track weekly = through("core", {{0, 50}, {30, 24}, {60, 22}}, [](int day) { return day % 7 == 0; });
  EXPECT_EQ(worms({weekly}, 60.0), Answer::yes);
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
  const LabValue salmonella = {"salmonella", 5.0, "MPN/4 g dry", "", 280 * day_s, false};
  EXPECT_EQ(answer({stable, clean, salmonella}), Answer::no) << "any failed test means not ready";
  const LabValue found = {"salmonella_25_g", 1.0, "found/25 g", "", 280 * day_s, false};
  EXPECT_EQ(answer({stable, clean, found}), Answer::no);
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
  EXPECT_NE(plain(judged[2].text).find("Stability class IV"), std::string::npos);
  EXPECT_NE(plain(judged[3].text).find("mature"), std::string::npos);
}

TEST(LabTests, ShowTheRulesOwnVerdictBesideOurs) {
  const auto judged = judge_tests(std::vector<LabValue>{clean, {"salmonella", 5.0, "MPN/4 g dry", "", 0.0, false}});
  ASSERT_EQ(judged.size(), 3U);
  const std::string together = plain(judged.back().text);
  EXPECT_NE(together.find("one passing test suffices"), std::string::npos) << together;
  EXPECT_NE(together.find("not ready"), std::string::npos) << together;
  EXPECT_EQ(judged.back().weight, Severity::warning);
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
