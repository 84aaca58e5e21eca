#include "yard/state/state.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "rows.hpp"
#include "yard/state/inputs.hpp"
#include "yard/state/state_json.hpp"
#include "yard/state/today.hpp"
#include "yard/state/words.hpp"

namespace stillheap::yard {
namespace {

using test::at;
using test::daily;
using test::glance;

const Reader metric{UnitSystem::metric, "UTC"};
const Reader us{UnitSystem::us, "America/New_York"};

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Words, GetUnitsAndClockOfTheReader) {
  const insight::Phrase phrase = {"core ", insight::celsius(55.0), ", up ", insight::kelvin(10.0),
                                  ", ",    insight::share(0.375),  ", ",    insight::moment(3600.0)};
  EXPECT_EQ(words(phrase, metric, at("2026-03-02T08:00Z")), "core 55 degC, up 10 K, 37.5 %, 2026-03-02 09:00");
  EXPECT_EQ(words(phrase, us, at("2026-03-02T08:00Z")), "core 131 degF, up 18 degF, 37.5 %, 2026-03-02 04:00");
}

TEST(Inputs, MakeOneTrackOfEachPlaceAndMeasure) {
  std::vector<record::Reading> rows = daily({30.0, 40.0});
  const auto wall = daily({20.0}, "wall");
  rows.insert(rows.end(), wall.begin(), wall.end());
  rows.push_back(rows.front());
  rows.back().measure = record::Measure::moisture;
  rows.back().value = 0.6;
  rows.push_back(rows.front());
  rows.back().measure = record::Measure::acidity;
  const auto tracks = tracks_of(rows, at("2026-03-02T08:00Z"));
  ASSERT_EQ(tracks.size(), 3U) << "nothing turns on pH";
  EXPECT_EQ(tracks[0].samples.size(), 2U);
  EXPECT_DOUBLE_EQ(tracks[0].samples[0].time_s, 86400.0);
  EXPECT_EQ(tracks[2].sensed, insight::Sensed::moisture);
}

TEST(State, BringsTheRecordToEveryRule) {
  std::vector<record::Reading> rows = daily({40.0, 58.0, 60.0, 61.0, 62.0, 72.0});
  for (record::Reading& row : rows) {
    row.place.depth_m = 0.6;
    row.place.radius_m = 0.0;
  }
  const vessel::Design design = test::design();
  const VesselState state = state_from(glance(), rows, {}, {}, &design, at("2026-03-08T12:00Z"));
  EXPECT_EQ(state.phase.now, insight::Phase::hot);
  ASSERT_EQ(state.alerts.size(), 1U);
  EXPECT_EQ(state.alerts[0].id, "too-hot");
  const insight::RuleFinding* best = best_rule(state);
  ASSERT_NE(best, nullptr);
  EXPECT_EQ(best->rule_id, "static-aerated-55");
  ASSERT_TRUE(best->spoken.has_value());
  EXPECT_GT(best->spoken->near, 0.005);
  EXPECT_LT(best->spoken->near, 0.02) << "a ball of 0.15 m in 1.35 m3, less the channel";
  EXPECT_EQ(state.worms.answer, insight::Answer::no);
  EXPECT_EQ(state.harvest.answer, insight::Answer::no);
}

TEST(State, SaysNoShareWithoutADesign) {
  const VesselState state =
      state_from(glance(), daily({60.0, 60.0, 60.0, 60.0, 60.0}), {}, {}, nullptr, at("2026-03-08T12:00Z"));
  EXPECT_FALSE(best_rule(state)->spoken.has_value());
  EXPECT_TRUE(contains(words(best_rule(state)->statement.text, metric, at("2026-03-02T08:00Z")), "not known"));
}

TEST(State, SaysWhatTheFillDoesNotTell) {
  record::VesselGlance known = glance();
  known.fill->carbon_to_nitrogen = 30.0;
  const auto organic = [](const record::VesselGlance& one) {
    const VesselState state =
        state_from(one, daily({60.0, 60.0, 60.0, 60.0, 60.0}), {}, {}, nullptr, at("2026-03-08T12:00Z"));
    return std::find_if(state.hygiene.begin(), state.hygiene.end(),
                        [](const auto& rule) { return rule.rule_id == "organic-static-aerated"; })
        ->probes.front()
        .verdict;
  };
  EXPECT_TRUE(organic(known).met);
  EXPECT_FALSE(organic(glance()).met);
  EXPECT_TRUE(contains(organic(glance()).reading, "C:N not noted"));
}

TEST(State, LeavesOutTestsOfTheFuture) {
  record::LabTest test;
  test.key = "arsenic";
  test.value = 50.0;
  test.unit = "mg/kg dry";
  test.sampled_at = at("2026-12-01T08:00Z");
  const std::vector<record::LabTest> tests = {test};
  EXPECT_TRUE(state_from(glance(), {}, tests, {}, nullptr, at("2026-11-01T08:00Z")).tests.empty());
  EXPECT_EQ(state_from(glance(), {}, tests, {}, nullptr, at("2026-12-02T08:00Z")).tests.size(), 1U);
}

TEST(State, FindsItsDesignByItsNameOrTheVessels) {
  site::Site site;
  site.vessels = {test::design()};
  record::Vessel vessel;
  vessel.name = "north";
  EXPECT_NE(design_of(vessel, &site), nullptr);
  vessel = {};
  vessel.name = "old 1";
  EXPECT_NE(design_of(vessel, &site), nullptr) << "the only one there is";
  vessel.design = "old";
  EXPECT_EQ(design_of(vessel, &site), nullptr) << "it is another";
  site.vessels.push_back(test::design());
  site.vessels.back().name = "south";
  vessel.design.clear();
  EXPECT_EQ(design_of(vessel, &site), nullptr) << "which of two is not known";
  vessel.design = "north";
  EXPECT_NE(design_of(vessel, &site), nullptr);
  EXPECT_EQ(design_of(vessel, nullptr), nullptr);
}

TEST(Json, HoldsReadingRuleAndSourceOfEveryStatement) {
  const VesselState state =
      state_from(glance(), daily({40.0, 58.0, 60.0, 72.0}), {}, {}, nullptr, at("2026-03-06T12:00Z"));
  const nlohmann::json json = to_json(state, us);
  EXPECT_EQ(json.at("phase").at("now"), "hot");
  const nlohmann::json& alert = json.at("alerts").at(0);
  EXPECT_EQ(alert.at("id"), "too-hot");
  EXPECT_TRUE(contains(alert.at("reading"), "161.6 degF")) << alert;
  EXPECT_TRUE(contains(alert.at("rule"), "158 degF")) << alert;
  for (const nlohmann::json& rule : json.at("hygiene")) {
    EXPECT_FALSE(rule.at("statement").at("source").get<std::string>().empty());
    EXPECT_FALSE(rule.at("statement").at("reading").get<std::string>().empty()) << rule;
  }
}

TEST(Today, PutsDangerFirstAndReadingsOnce) {
  const VesselState hot =
      state_from(glance("hot"), daily({40.0, 58.0, 60.0, 86.0}), {}, {}, nullptr, at("2026-03-08T12:00Z"));
  const VesselState slow =
      state_from(glance("slow"), daily(std::vector<double>(9, 25.0)), {}, {}, nullptr, at("2026-03-11T12:00Z"));
  std::vector<record::Due> due(1);
  due[0].kind = record::DueKind::reading;
  due[0].vessel = "hot";
  due[0].what = "read the temperatures";
  due[0].since = at("2026-03-01T08:00Z");
  const std::vector<Task> tasks = tasks_of({slow, hot}, due, metric);
  ASSERT_EQ(tasks.size(), 3U);
  EXPECT_EQ(tasks[0].id, "fire-risk");
  EXPECT_FALSE(tasks[0].caution.empty());
  EXPECT_EQ(tasks[1].id, "not-heating");
  EXPECT_EQ(tasks[2].id, "due-reading") << "and not readings-missing as well";
  for (const Task& task : tasks) {
    EXPECT_FALSE(task.what.empty());
    EXPECT_FALSE(task.rule.empty());
    EXPECT_FALSE(task.source.empty());
  }
}

TEST(Today, AsksForNoWaterWhereItIsSoakedOrFrozen) {
  std::vector<record::Reading> rows = daily({40.0, 50.0, 55.0});
  rows.push_back(rows.back());
  rows.back().measure = record::Measure::moisture;
  const auto sprinkles = [&](double moisture, double today_c) {
    rows.back().value = moisture;
    insight::Outside outside;
    outside.today_c = today_c;
    const VesselState state = state_from(glance(), rows, {}, {}, nullptr, at("2026-03-05T12:00Z"), outside);
    std::vector<record::Due> due(1);
    due[0].kind = record::DueKind::sprinkle;
    due[0].fill_id = state.glance.fill->mark.thing;
    due[0].what = "sprinkle";
    const std::vector<Task> tasks = tasks_of({state}, due, metric);
    return std::any_of(tasks.begin(), tasks.end(), [](const Task& task) { return task.id == "due-sprinkle"; });
  };
  EXPECT_TRUE(sprinkles(0.60, 10.0));
  EXPECT_FALSE(sprinkles(0.80, 10.0)) << "its own alert says stop";
  EXPECT_FALSE(sprinkles(0.30, 10.0)) << "the alert says how much more";
  EXPECT_FALSE(sprinkles(0.60, -4.0)) << "frozen";
}

TEST(Today, SilencesThePlansDayThatTheReadingsSpeakAgainst) {
  std::vector<record::Reading> rows = daily({40.0, 50.0, 55.0});
  rows.push_back(rows.back());
  rows.back().measure = record::Measure::moisture;
  const auto shown = [&](double moisture, const std::string& what, bool ahead = false) {
    rows.back().value = moisture;
    const VesselState state = state_from(glance(), rows, {}, {}, nullptr, at("2026-03-05T12:00Z"));
    std::vector<record::Due> due(1);
    due[0].kind = record::DueKind::planned;
    due[0].vessel = state.glance.vessel.name;
    due[0].what = what;
    due[0].ahead = ahead;
    const std::vector<Task> tasks = tasks_of({state}, due, metric);
    return std::any_of(tasks.begin(), tasks.end(), [&](const Task& task) { return task.what == what; });
  };
  EXPECT_TRUE(shown(0.60, "Start the water programme"));
  EXPECT_FALSE(shown(0.80, "Start the water programme")) << "its own alert says stop";
  EXPECT_FALSE(shown(0.60, "Harvest window (9 to 12 months)")) << "it is hot";
  EXPECT_FALSE(shown(0.60, "Add worms once it is cool"));
  EXPECT_TRUE(shown(0.60, "Harvest window (9 to 12 months)", true)) << "what is still ahead is no advice yet";
}

TEST(Today, PutsWhatIsDueBeforePlanDaysAndThoseAheadLast) {
  std::vector<record::Due> due(3);
  for (record::Due& one : due) one.kind = record::DueKind::planned;
  due[0].what = "order";
  due[0].entry_id = "a";
  due[0].since = at("2026-03-20T00:00Z");
  due[0].ahead = true;
  due[1].what = "level the ground";
  due[1].entry_id = "b";
  due[1].since = at("2026-02-01T00:00Z");
  due[2].kind = record::DueKind::reading;
  due[2].what = "read";
  due[2].since = at("2026-03-10T00:00Z");
  const std::vector<Task> tasks = tasks_of({}, due, metric);
  ASSERT_EQ(tasks.size(), 3U);
  EXPECT_EQ(tasks[0].what, "read") << "however long a plan day has passed";
  EXPECT_EQ(tasks[1].what, "level the ground");
  EXPECT_EQ(tasks[2].what, "order");
  EXPECT_TRUE(tasks[2].ahead);
}

TEST(Words, OfRulesSourcesAndCautionsAreInTheUnitsOfTheYard) {
  const VesselState hot =
      state_from(glance("hot"), daily({40.0, 58.0, 60.0, 86.0}), {}, {}, nullptr, at("2026-03-08T12:00Z"));
  const std::string told = to_json(hot, {UnitSystem::us, "UTC"}).dump();
  for (const char* const metric_unit : {"degC", " K ", "kg/m3", " mm"}) {
    const std::size_t found = told.find(metric_unit);
    EXPECT_EQ(found, std::string::npos) << told.substr(found > 80 ? found - 80 : 0, 160);
  }
  EXPECT_NE(told.find("131 degF or more for 3 days"), std::string::npos);
}

}  // namespace
}  // namespace stillheap::yard
