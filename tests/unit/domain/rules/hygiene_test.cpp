#include "domain/rules/hygiene.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/error.hpp"

namespace stillheap::rules {
namespace {

constexpr double hour_s = 3600.0;
constexpr double day_s = 86400.0;
constexpr double no_limit = std::numeric_limits<double>::infinity();

TEST(Stretches, AreCutWhereTheLineCrosses) {
  const History rise_and_fall = {{0.0, 50.0}, {10.0 * hour_s, 60.0}, {20.0 * hour_s, 50.0}};
  const auto found = stretches_within(rise_and_fall, 55.0, no_limit);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].begin_s, 5.0 * hour_s, 1e-3);
  EXPECT_NEAR(found[0].end_s, 15.0 * hour_s, 1e-3);
}

TEST(Stretches, BreakAtADipAndAtALongGap) {
  const History dip = {{0.0, 60.0}, {day_s, 60.0}, {1.5 * day_s, 50.0}, {2.0 * day_s, 60.0}, {3.0 * day_s, 60.0}};
  EXPECT_EQ(stretches_within(dip, 55.0, no_limit).size(), 2U);
  const History gap = {{0.0, 60.0}, {day_s, 60.0}, {4.0 * day_s, 60.0}, {5.0 * day_s, 60.0}};
  EXPECT_EQ(stretches_within(gap, 55.0, no_limit).size(), 2U);
  EXPECT_FALSE(judge(hold_rule("static-aerated-55"), gap, {}).met);
}

TEST(Stretches, PassThroughABandTwice) {
  const History through = {{0.0, 40.0}, {10.0 * hour_s, 80.0}, {20.0 * hour_s, 40.0}};
  EXPECT_EQ(stretches_within(through, 55.0, 60.0).size(), 2U);
}

TEST(Stretches, RefuseUnsortedOrBrokenReadings) {
  EXPECT_THROW(static_cast<void>(stretches_within({{10.0, 50.0}, {5.0, 50.0}}, 40.0, no_limit)), InputError);
  EXPECT_THROW(static_cast<void>(stretches_within({{0.0, NAN}}, 40.0, no_limit)), InputError);
  EXPECT_TRUE(stretches_within({}, 40.0, no_limit).empty());
}

TEST(HoldRules, SayWhenTheyWereMet) {
  History hot = {{0.0, 20.0}, {day_s, 60.0}};
  for (int day = 2; day <= 6; ++day) hot.push_back({day * day_s, 60.0});
  const Verdict verdict = judge(hold_rule("static-aerated-55"), hot, {});
  ASSERT_TRUE(verdict.met);
  EXPECT_NEAR(*verdict.met_at_s, (35.0 / 40.0 + 3.0) * day_s, 1.0);
  EXPECT_NE(verdict.reading.find("of 72 h asked"), std::string::npos);
  EXPECT_FALSE(verdict.source.empty());
}

TEST(HoldRules, DoNotCountAnotherWayOfComposting) {
  const History hot = {{0.0, 60.0}, {day_s, 60.0}, {2.0 * day_s, 60.0}, {3.0 * day_s, 60.0}};
  EXPECT_TRUE(judge(hold_rule("static-aerated-55"), hot, {}).met);
  EXPECT_FALSE(judge(hold_rule("static-aerated-55"), hot, {.method = Method::windrow}).met);
  for (const Verdict& verdict : judge_all(hot, {}))
    EXPECT_EQ(verdict.rule_id.find("windrow"), std::string::npos) << verdict.rule_id;
}

TEST(HoldRules, AreOneListForForecastsAndReadings) {
  std::vector<std::string> ids;
  for (const Verdict& verdict : judge_all({}, {})) ids.push_back(verdict.rule_id);
  for (const HoldRule& rule : further_hold_rules())
    EXPECT_NE(std::find(ids.begin(), ids.end(), rule.id), ids.end()) << rule.id;
  for (const char* const lesser : {"significant-reduction-40", "vector-attraction-45"}) {
    EXPECT_NE(std::find(ids.begin(), ids.end(), lesser), ids.end());
    EXPECT_FALSE(counts_as_hygiene(lesser)) << "fewer germs and flies are no clean compost";
  }
  EXPECT_TRUE(counts_as_hygiene("static-aerated-55"));
}

TEST(HoldRules, NameTheKnownIdsForAWrongOne) {
  try {
    static_cast<void>(hold_rule("still-55"));
    FAIL();
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("static-aerated-55"), std::string::npos);
  }
}

TEST(TimeTemperature, FindsAHoldHiddenInASlope) {
  // From 70 to 60 degC in 20 h: 65 degC stands for 10 h where 2.51 h are asked.
  const History slope = {{0.0, 70.0}, {20.0 * hour_s, 60.0}};
  const Verdict verdict = judge_time_temperature(slope, {});
  EXPECT_TRUE(verdict.met);
  ASSERT_TRUE(verdict.met_at_s.has_value());
  EXPECT_LT(*verdict.met_at_s, 4.0 * hour_s);
  EXPECT_EQ(judge_time_temperature({}, {}).met, false);
}

TEST(Lethality, IsExactOnASlopeAndBlindBelowFifty) {
  const History slope = {{0.0, 40.0}, {20.0 * hour_s, 60.0}};
  double sum = 0.0;
  const int steps = 200000;
  for (int i = 0; i < steps; ++i) {
    const double at_c = 50.0 + 10.0 * (i + 0.5) / steps;
    sum += 10.0 * hour_s / steps / required_hold_s(at_c);
  }
  EXPECT_NEAR(fractional_lethality(slope), sum, 1e-7 * sum);
  EXPECT_EQ(fractional_lethality({{0.0, 49.9}, {day_s, 49.9}}), 0.0);
}

}  // namespace
}  // namespace stillheap::rules
