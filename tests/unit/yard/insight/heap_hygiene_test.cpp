#include "yard/insight/heap_hygiene.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "tracks.hpp"

namespace stillheap::insight {
namespace {

using test::daily;
using test::day_s;

const RuleFinding& find(const std::vector<RuleFinding>& findings, const std::string& id) {
  return *std::find_if(findings.begin(), findings.end(), [&](const RuleFinding& one) { return one.rule_id == id; });
}

/// A cube of 1 m, 10 pieces a side, cooling faces all round.
std::vector<MaterialPoint> cube() {
  std::vector<MaterialPoint> points;
  for (int x = 0; x < 10; ++x) {
    for (int y = 0; y < 10; ++y) {
      for (int z = 0; z < 10; ++z) {
        const auto at = [](int i) { return 0.05 + 0.1 * i; };
        const auto face = [&](int i) { return std::min(at(i), 1.0 - at(i)); };
        points.push_back({{at(x), at(y)}, at(z), std::min({face(x), face(y), face(z)})});
      }
    }
  }
  return points;
}

TEST(HeapHygiene, IsJudgedAtEveryPosition) {
  const std::vector<Track> tracks = {daily("core", {40.0, 58.0, 60.0, 60.0, 60.0, 59.0, 50.0}),
                                     daily("wall", {20.0, 30.0, 40.0, 42.0, 40.0, 38.0, 30.0})};
  const auto findings = heap_hygiene(tracks, {}, {}, 7.0 * day_s);
  const RuleFinding& rule = find(findings, "static-aerated-55");
  ASSERT_EQ(rule.probes.size(), 2U);
  EXPECT_TRUE(rule.probes[0].verdict.met);
  EXPECT_FALSE(rule.probes[1].verdict.met);
  EXPECT_FALSE(rule.met_at_every_probe);
  EXPECT_FALSE(rule.spoken.has_value()) << "nobody said where the probes stand";
  EXPECT_NE(plain(rule.statement.text).find("met at 1 of 2"), std::string::npos) << plain(rule.statement.text);
  EXPECT_FALSE(rule.statement.caution.empty());
}

TEST(HeapHygiene, TakesNoReadingAfterNow) {
  const std::vector<Track> tracks = {daily("core", {58.0, 58.0, 60.0, 60.0, 60.0, 59.0})};
  EXPECT_FALSE(find(heap_hygiene(tracks, {}, {}, 2.5 * day_s), "static-aerated-55").probes[0].verdict.met);
  EXPECT_TRUE(find(heap_hygiene(tracks, {}, {}, 5.5 * day_s), "static-aerated-55").probes[0].verdict.met);
}

TEST(HeapHygiene, ChangesNothingByLeavingOutCoolReadings) {
  std::vector<double> values;
  for (int i = 0; i < 200; ++i) values.push_back(i % 9 < 4 ? 57.0 : (i % 9 == 5 ? 41.0 : 20.0));
  const std::vector<Track> tracks = {daily("core", values)};
  const auto findings = heap_hygiene(tracks, {}, {}, 200.0 * day_s);
  const auto direct = rules::judge_all(history_of(tracks[0]), {});
  ASSERT_EQ(findings.size(), direct.size());
  for (std::size_t i = 0; i < direct.size(); ++i) {
    EXPECT_EQ(findings[i].probes[0].verdict.met, direct[i].met) << direct[i].rule_id;
    EXPECT_EQ(findings[i].probes[0].verdict.longest.length_s(), direct[i].longest.length_s()) << direct[i].rule_id;
  }
}

TEST(Spoken, CountsWhatIsNearAndWhatLiesAsDeep) {
  const auto material = cube();
  const Spoken middle = spoken_for(material, std::vector<ProbePoint>{{{0.5, 0.5}, 0.5, 0.5}});
  EXPECT_NEAR(middle.near, 0.008, 1e-9) << "the eight pieces around the middle are 0.087 m off, the next 0.166 m";
  EXPECT_NEAR(middle.as_deep, 0.0, 1e-9) << "no piece's own middle is as deep as the very middle";
  const Spoken side = spoken_for(material, std::vector<ProbePoint>{{{0.5, 0.5}, 0.24, 0.24}});
  EXPECT_NEAR(side.as_deep, 0.216, 1e-9) << "6 x 6 x 6 pieces are at least 0.24 m deep";
  EXPECT_EQ(spoken_for(material, {}).near, 0.0);
}

TEST(Spoken, SpeaksForThePositionsThatMetTheRuleOnly) {
  const std::vector<Track> tracks = {daily("core", std::vector<double>(6, 60.0)),
                                     daily("wall", std::vector<double>(6, 40.0))};
  const ProbeView view{cube(), {ProbePoint{{0.5, 0.5}, 0.34, 0.34}, ProbePoint{{0.05, 0.5}, 0.5, 0.05}}};
  const RuleFinding rule = find(heap_hygiene(tracks, view, {}, 6.0 * day_s), "static-aerated-55");
  ASSERT_TRUE(rule.spoken.has_value());
  EXPECT_NEAR(rule.spoken->as_deep, 0.064, 1e-9) << "the wall's probe did not meet it and lends nothing";
}

TEST(Spoken, IsNotErasedByAProbeInAChannel) {
  const std::vector<Track> tracks = {daily("core", std::vector<double>(6, 60.0)),
                                     daily("in the channel", std::vector<double>(6, 60.0))};
  const ProbeView view{cube(), {ProbePoint{{0.5, 0.5}, 0.34, 0.34}, std::nullopt}};
  const RuleFinding rule = find(heap_hygiene(tracks, view, {}, 6.0 * day_s), "static-aerated-55");
  EXPECT_EQ(rule.probes_met(), 2U);
  ASSERT_TRUE(rule.spoken.has_value());
  EXPECT_NEAR(rule.spoken->as_deep, 0.064, 1e-9) << "what the core's probe speaks for, and no more";
  const ProbeView nowhere{cube(), {std::nullopt, std::nullopt}};
  EXPECT_FALSE(find(heap_hygiene(tracks, nowhere, {}, 6.0 * day_s), "static-aerated-55").spoken.has_value());
}

TEST(HeapHygiene, DoesNotMeetRulesForTurnedOrBlownHeaps) {
  const auto findings =
      heap_hygiene(std::vector<Track>{daily("core", std::vector<double>(20, 72.0))}, {}, {}, 20.0 * day_s);
  for (const char* id : {"europe-70", "europe-55", "animal-by-products-70"}) {
    EXPECT_EQ(find(findings, id).probes_met(), 0U) << id;
    EXPECT_NE(plain(find(findings, id).statement.rule).find(id[0] == 'e' ? "forced aeration" : "12 mm"),
              std::string::npos);
  }
  EXPECT_EQ(find(findings, "static-aerated-55").probes_met(), 1U);
}

TEST(LesserRule, AsksForFourHoursAboveItsPeak) {
  const auto judge_hours = [](double peak_c) {
    const double hour_s = 3600.0;
    return rules::judge_significant_reduction({{0.0, 41.0},
                                               {24 * hour_s, 41.0},
                                               {24 * hour_s, peak_c},
                                               {28 * hour_s, peak_c},
                                               {28 * hour_s, 41.0},
                                               {52 * hour_s, 41.0},
                                               {76 * hour_s, 41.0},
                                               {100 * hour_s, 41.0},
                                               {120 * hour_s, 41.0}});
  };
  EXPECT_TRUE(judge_hours(56.0).met);
  EXPECT_FALSE(judge_hours(55.0).met) << "the rule says exceeds";
  EXPECT_NE(judge_hours(56.0).reading.find("120.0 h of 120 h"), std::string::npos);
}

}  // namespace
}  // namespace stillheap::insight
