#include "planning/plan/plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <sstream>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "planning/plan/forecast_step.hpp"
#include "planning/plan/plan_json.hpp"
#include "planning/plan/sheet_plan.hpp"
#include "planning/plan/suggestion_text.hpp"
#include "planning/plan/summary_text.hpp"
#include "planning/plan/warnings.hpp"
#include "planning/plan/water_step.hpp"
#include "yard.hpp"

namespace stillheap::plan {
namespace {

Plan small_plan(const site::Site& site = test::small_yard(), double peak_c = 65.0) {
  return make_plan(site, {}, test::small_engine(peak_c));
}

bool warns(const Plan& plan, const std::string& words) {
  return std::any_of(plan.warnings.begin(), plan.warnings.end(),
                     [&](const Warning& warning) { return warning.what.find(words) != std::string::npos; });
}

bool cautions(const Plan& plan, const std::string& words) {
  return std::any_of(plan.cautions.begin(), plan.cautions.end(),
                     [&](const Caution& caution) { return caution.text.find(words) != std::string::npos; });
}

TEST(Plan, CountsVesselsFromTheGoalWithItsBand) {
  site::Site site = test::small_yard();
  site.goal = {};
  site.goal.compost_m3 = 3.0;
  const double one_m3 = vessel::material_volume_m3(site.vessels[0]);
  const Plan plan = small_plan(site);
  EXPECT_EQ(plan.vessels_needed, static_cast<int>(std::ceil(3.0 / (0.45 * one_m3))));
  EXPECT_EQ(plan.vessels_needed_low, static_cast<int>(std::ceil(3.0 / (0.55 * one_m3))));
  EXPECT_EQ(plan.vessels_needed_high, static_cast<int>(std::ceil(3.0 / (0.35 * one_m3))));
  EXPECT_EQ(plan.vessels[0].design.count, plan.vessels_needed);
  EXPECT_GE(plan.finished_m3.middle, 3.0);
  EXPECT_LT(plan.finished_m3.middle, 3.0 + 0.45 * one_m3);
}

TEST(Plan, TakesTheWantedNumberOfVessels) {
  const Plan plan = small_plan();
  EXPECT_EQ(plan.vessels_needed, 2);
  EXPECT_EQ(plan.vessels_needed_low, 2);
  EXPECT_NEAR(plan.finished_m3.middle, 2 * 0.45 * vessel::material_volume_m3(plan.vessels[0].design), 1e-9);
}

TEST(Plan, ForecastsAgainWhenStockChangesTheBlend) {
  site::Site site = test::small_yard();
  site.goal = {};
  site.goal.compost_m3 = 3.0;
  site.blend.shares_by_mass.clear();
  site.blend.limits.carbon_to_nitrogen = {15.0, 200.0};
  site.blend.limits.free_air_space = {0.05, 0.9};
  site.blend.limits.conductivity_max_s_m = 5.0;
  // The cheap one lasts for one vessel and a half; the others must take the dear one.
  site.offers = {test::offer("wood-chips", 0.01), test::offer("wheat-straw", 0.50)};
  site.offers[0].stock_kg = 450.0;
  site.blend.limits.moisture_wet = {0.5, 0.7};
  int runs = 0;
  const Plan plan = make_plan(site, {}, [&](const forecast::Request& request, const Progress&) {
    ++runs;
    return test::small_forecast(request);
  });
  EXPECT_EQ(runs, 4) << "each time once to find the water programme, once to run it";
  double chips_kg = 0.0;
  for (const material::Part& part : plan.vessels[0].blend_as_delivered.parts) {
    if (part.feedstock.id == "wood-chips") chips_kg = part.mass_wet_kg * plan.vessels[0].design.count;
  }
  EXPECT_LE(chips_kg, 450.0 + 1e-6);
}

TEST(Plan, AsksTheEngineForTheSoakedBlendAtTheRightDay) {
  forecast::Request asked;
  const Plan plan = make_plan(test::small_yard(), {}, [&](const forecast::Request& request, const Progress&) {
    asked = request;
    return test::small_forecast(request);
  });
  EXPECT_EQ(asked.start_day_of_year, 91);
  EXPECT_NEAR(asked.blend.moisture_wet, 0.65, 1e-9);
  EXPECT_FALSE(asked.sprinkling.automatic);
  EXPECT_EQ(asked.sprinkling.kg_by_day, plan.vessels[0].programme.reaching_kg);
  EXPECT_DOUBLE_EQ(asked.sprinkling.conductivity_s_m, 0.05);
  EXPECT_GT(asked.fill_temperature_c, 5.0);
  EXPECT_LT(asked.fill_temperature_c, 12.0);
  EXPECT_EQ(asked.weather.hours.size(), 8760U);
}

TEST(Plan, StopsWhenProgressSaysSo) {
  double last_share = 0.0;
  const Progress stop_half_way = [&](double share, const std::string&) {
    last_share = share;
    return share < 0.5;
  };
  const Plan plan = make_plan(test::small_yard(), stop_half_way, test::small_engine());
  ASSERT_TRUE(plan.stopped.has_value());
  EXPECT_NE(plan.stopped->find("stopped by the user"), std::string::npos);
  ASSERT_EQ(plan.vessels.size(), 1U);
  EXPECT_TRUE(plan.vessels.front().forecast.stopped_by_user);
  EXPECT_TRUE(plan.calendar.empty());
  EXPECT_LE(last_share, 0.61);
}

TEST(Plan, TellsProgressThatNeverFalls) {
  std::vector<double> shares;
  site::Site site = test::small_yard();
  site.vessels.push_back(test::round_vessel());
  site.vessels.back().name = "south bed";
  static_cast<void>(make_plan(
      site,
      [&](double share, const std::string&) {
        shares.push_back(share);
        return true;
      },
      test::small_engine()));
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  EXPECT_DOUBLE_EQ(shares.back(), 1.0);
}

TEST(Plan, RefusesAGoalThatSaysNothingOrBoth) {
  site::Site site = test::small_yard();
  site.goal.compost_m3 = 2.0;
  EXPECT_THROW(static_cast<void>(small_plan(site)), InputError);
  site.goal = {};
  EXPECT_THROW(static_cast<void>(small_plan(site)), InputError);
}

TEST(Plan, WarnsOfAHeapThatStaysCoolOrRunsTooHot) {
  EXPECT_TRUE(warns(small_plan(test::small_yard(), 45.0), "do not count on hygiene"));
  const Plan hot = small_plan(test::small_yard(), 72.0);
  EXPECT_TRUE(warns(hot, "may pass 70"));
  EXPECT_TRUE(cautions(hot, "At 70 degC"));
  const Plan right = small_plan(test::small_yard(), 62.0);
  EXPECT_FALSE(warns(right, "do not count on hygiene"));
  EXPECT_FALSE(warns(right, "may pass"));
  EXPECT_FALSE(cautions(right, "At 70 degC"));
}

TEST(Plan, JudgesHygieneInTheCoreAndAtTheColdestPlace) {
  const Plan plan = small_plan();
  const HygieneOutlook& hygiene = plan.vessels[0].hygiene;
  EXPECT_TRUE(hygiene.core.front().met);
  EXPECT_FALSE(hygiene.coldest.front().met);
  EXPECT_FALSE(hygiene.met_everywhere());
  EXPECT_GT(hygiene.core_lethality, 1.0);
  EXPECT_TRUE(cautions(plan, "Count the compost as raw"));
}

TEST(Plan, TellsFindingsInTheDigitsOfTheFirstSheet) {
  Plan plan = small_plan();
  forecast::Summary& summary = plan.vessels[0].forecast.summary;
  summary.heated = true;
  summary.warm_again_day = 263.7;
  summary.lowest_oxygen = {0.000237, 0.0, 0.0301};
  summary.most_mass_below_5_oxygen = {0.489, 0.147, 0.745};
  summary.driest_moisture_wet = {0.0839, 0.0802, 0.0862};
  summary.peak_temperature_c = {70.43, 60.2, 80.37};
  plan.warnings = warnings_of(plan);
  EXPECT_TRUE(warns(plan, "it warms again from day 264 on"));
  EXPECT_TRUE(warns(plan, "oxygen falls to 0.0 % (0.0 % to 3.0 %) of the gas, at most 49 % (15 % to 74 %)"));
  EXPECT_TRUE(warns(plan, "the driest place falls to 8 % (8 % to 9 %) moisture"));
  EXPECT_TRUE(warns(plan, "hottest 70 degC (60 degC to 80 degC)"));
}

TEST(Plan, WarnsOfLongAirPathsWithAMend) {
  site::Site site = test::small_yard();
  site.vessels[0].channels.clear();
  site.vessels[0].diameter_m = 1.8;
  const Plan plan = small_plan(site);
  EXPECT_TRUE(warns(plan, "longest way to air"));
  EXPECT_TRUE(plan.vessels[0].suggestion.has_value());
}

TEST(Plan, WarnsOfSoftGroundAndLateGoals) {
  site::Site site = test::small_yard();
  site.soil_bearing_pa = 1000.0;
  site.goal.ready_by = "2025-09-01";
  const Plan plan = small_plan(site);
  EXPECT_TRUE(warns(plan, "the ground may bear"));
  EXPECT_TRUE(warns(plan, "wanted ready by 2025-09-01"));
}

TEST(Plan, HarvestsNoEarlierThanAgeAndCuringAllow) {
  const Plan plan = small_plan();
  EXPECT_NEAR(plan.vessels[0].harvest.early_day, 274.0, 1e-9);
  site::Site site = test::small_yard();
  const Plan slow = make_plan(site, {}, [](const forecast::Request& request, const Progress&) {
    forecast::Result result = test::small_forecast(request);
    result.summary.cool_day = 300.0;
    result.summary.cool_day_high = 350.0;
    result.summary.rests = {{300.0, 360.0}};
    return result;
  });
  EXPECT_NEAR(slow.vessels[0].harvest.early_day, 330.0, 1e-9);
  EXPECT_NEAR(slow.vessels[0].harvest.late_day, 380.0, 1e-9);
}

TEST(Plan, SetsNoHarvestIntoATimeOfNewHeat) {
  const auto with = [](std::vector<rules::Rest> rests) {
    return make_plan(test::small_yard(), {},
                     [rests](const forecast::Request& request, const Progress&) {
                       forecast::Result result = test::small_forecast(request);
                       result.summary.rests = rests;
                       return result;
                     })
        .vessels.front()
        .harvest;
  };
  const double end = test::small_yard().forecast_days;
  EXPECT_NEAR(with({{71.0, 200.0}, {290.0, end}}).early_day, 320.0, 1e-9) << "a month after the second end";
  EXPECT_TRUE(with({{71.0, 200.0}, {290.0, end}}).cooled_in_forecast);
  EXPECT_FALSE(with({{71.0, 200.0}}).cooled_in_forecast) << "it heats again to the end: by age alone";
}

TEST(Plan, WarnsOfFillingInFrostAndBeforeAnyForecast) {
  site::Site site = test::small_yard();
  EXPECT_FALSE(warns(small_plan(site), "freezes or hardly starts"));
  site.start_date = "2026-01-05";
  const Plan plan = small_plan(site);
  EXPECT_TRUE(warns(plan, "freezes or hardly starts"));
}

TEST(Plan, FindsTheProgrammeOnADraftAndRunsIt) {
  std::vector<forecast::Request> asked;
  const Plan plan = make_plan(test::small_yard(), {}, [&](const forecast::Request& request, const Progress&) {
    asked.push_back(request);
    return test::small_forecast(request);
  });
  ASSERT_EQ(asked.size(), 2U);
  EXPECT_TRUE(asked[0].sprinkling.automatic);
  EXPECT_EQ(asked[0].grid, forecast::Grid::draft);
  EXPECT_EQ(asked[0].members, 0);
  EXPECT_FALSE(asked[1].sprinkling.automatic);
  double sum_kg = 0.0;
  for (const double kg : asked[1].sprinkling.kg_by_day) sum_kg += kg;
  EXPECT_DOUBLE_EQ(sum_kg, water::reaching_kg(plan.vessels[0].programme));
  EXPECT_GT(sum_kg, 1000.0);
}

TEST(Plan, HasAProgrammeOnlyForTheDaysOfTheForecast) {
  site::Site site = test::small_yard();
  site.forecast_days = 60;
  const Plan plan = small_plan(site);
  const water::Programme& programme = plan.vessels[0].programme;
  EXPECT_EQ(date::to_iso(programme.rows.front().first), "2025-04-01");
  EXPECT_EQ(date::to_iso(programme.rows.back().last), "2025-05-30");
  EXPECT_TRUE(warns(plan, "before it is mature"));
  EXPECT_FALSE(warns(small_plan(), "before it is mature"));
}

TEST(Plan, DrainsTheLineWhereTheCalendarSaysSo) {
  const Plan plan = small_plan();
  for (const water::Row& row : plan.vessels[0].programme.rows) {
    if (row.setting != water::Setting::frost) continue;
    const bool told = std::any_of(plan.calendar.begin(), plan.calendar.end(), [&](const CalendarEntry& one) {
      return one.what.find("Drain water line") != std::string::npos && one.date <= date::to_iso(row.first);
    });
    EXPECT_TRUE(told) << date::to_iso(row.first);
  }
  const auto& rows = plan.vessels[0].programme.rows;
  EXPECT_TRUE(std::any_of(rows.begin(), rows.end(),
                          [](const water::Row& row) { return row.setting == water::Setting::frost; }));
}

TEST(Plan, NeedsNoLineByHand) {
  site::Site site = test::small_yard();
  site.water.by_hand = true;
  site.water.line = {};
  site.water.supply = {};
  const Plan plan = small_plan(site);
  EXPECT_GT(water::let_out_kg(plan.vessels[0].programme), 500.0);
  for (const PricedPiece& line : plan.shopping) {
    EXPECT_EQ(line.piece.what.find("water line"), std::string::npos);
    EXPECT_EQ(line.piece.what.find("timer"), std::string::npos);
  }
  const bool hours = std::any_of(plan.labour.begin(), plan.labour.end(), [](const LabourLine& line) {
    return line.what.find("by hand") != std::string::npos && line.hours > 1.0;
  });
  EXPECT_TRUE(hours);
  EXPECT_TRUE(to_json(plan)["vessels"][0]["water"]["line"].is_null());
}

TEST(Plan, ReadsTheDrainageFromItsSalt) {
  // 2 g of salt in 1 kg of water: 2 kg/m3 at 6.4 kg/m3 per S/m.
  EXPECT_NEAR(small_plan().vessels[0].drain_conductivity_s_m, 2.0 / 6.4, 1e-9);
}

TEST(Plan, ListsEveryAssumptionOnce) {
  const Plan plan = small_plan();
  const auto count = [&](const std::string& topic) {
    return std::count_if(plan.assumptions.begin(), plan.assumptions.end(),
                         [&](const Assumption& one) { return one.topic == topic; });
  };
  EXPECT_EQ(count("labour.people"), 1);
  EXPECT_EQ(count("model: temperature response"), 1);
  EXPECT_EQ(count("plan: building time"), 1);
  EXPECT_EQ(count("material: mixing volume ratio"), 1);
  for (const Assumption& one : plan.assumptions) EXPECT_FALSE(one.source.empty()) << one.topic;
}

TEST(Plan, SaysTheAnswerInAFewLines) {
  const std::string text = summary_text(small_plan());
  EXPECT_NE(text.find("Hollow Lane: 2 vessels"), std::string::npos) << text;
  EXPECT_NE(text.find("65 degC (62 degC to 68 degC)"), std::string::npos) << text;
  EXPECT_NE(text.find("priced lines only"), std::string::npos) << text;
}

TEST(Water, SaysThatItKeepsTheMeanAndNotTheDriestPlace) {
  VesselPlan vessel;
  vessel.forecast.summary.driest_moisture_wet.middle = 0.17;
  vessel.programme.rows.resize(1);
  const std::string dry = programme_limits(vessel);
  EXPECT_NE(dry.find("17 %"), std::string::npos) << dry;
  EXPECT_NE(dry.find("rain covers"), std::string::npos) << dry;
  vessel.programme.rows[0].lost_kg = 595.0;
  vessel.programme.rows[0].rain_credited_kg = 159.0;
  const std::string stored = programme_limits(vessel);
  EXPECT_EQ(stored.find("rain covers"), std::string::npos) << stored;
  EXPECT_NE(stored.find("lives on the water it was soaked with"), std::string::npos) << stored;
  vessel.programme.rows[0].runs = 1;
  vessel.programme.rows[0].run_kg = 8.0;
  EXPECT_EQ(programme_limits(vessel).find("rain covers"), std::string::npos);
}

/// A cage of wire far too thin, on ground too soft, for more days than a harvest takes.
site::Site weak_yard() {
  site::Site site = test::small_yard();
  site.vessels[0].mesh = vessel::WireMesh{0.0005, 0.1, 120e6};
  site.soil_bearing_pa = 1000.0;
  return site;
}

TEST(Findings, AreTheSameForSheetsAndPlanAsFarAsNoForecastIsNeeded) {
  const site::Site site = weak_yard();
  const Plan sheets = plan_for_sheets(site);
  EXPECT_TRUE(warns(sheets, "hoop tension")) << "the wire needs no forecast";
  EXPECT_TRUE(warns(sheets, "the ground may bear"));
  const Plan plan = small_plan(site);
  for (const Warning& one : sheets.warnings) EXPECT_TRUE(warns(plan, one.what)) << one.what;
  for (const Warning& one : plan.warnings) {
    const bool of_forecast =
        one.where.find("forecast") != std::string::npos || one.where.find("hygiene") != std::string::npos;
    EXPECT_TRUE(of_forecast || warns(sheets, one.what)) << one.where << ": " << one.what;
  }
}

TEST(Findings, TellALowerEdgeThatPressesHarderThanTheGroundBears) {
  site::Site site = test::small_yard();
  site.vessels[0].base_open = false;  // on slabs: no bearer presses harder
  site.vessels[0].base_gap_m = 0.0;
  const vessel::Loads loads = plan_for_sheets(site).vessels.at(0).loads;
  ASSERT_GT(loads.ground.edge_pressure_pa, std::max(loads.ground_pressure_pa, loads.ground.bearer_pressure_pa));
  site.soil_bearing_pa = 0.999 * loads.ground.edge_pressure_pa;
  EXPECT_TRUE(warns(plan_for_sheets(site), "the lower edge presses")) << "the sheet of loads says: does not hold";
}

/// Everything a plan says, but for its numbers as data.
std::string all_words(const Plan& plan) {
  std::string text;
  const auto add = [&](const std::string& one) { text += one + '\n'; };
  for (const Warning& one : plan.warnings) add(one.where + ": " + one.what + " [" + one.source + "]");
  for (const Assumption& one : plan.assumptions) add(one.topic + " = " + one.value + " (" + one.source + ")");
  for (const Caution& one : plan.cautions) add(one.text + " [" + one.source + "]");
  for (const CalendarEntry& one : plan.calendar) add(one.what);
  for (const rules::Verdict& one : plan.vessels[0].hygiene.core) add(one.rule + ": " + one.reading + one.source);
  return text;
}

TEST(Units, OfAUsYardAreUsInEverySentenceOfThePlan) {
  site::Site site = weak_yard();
  site.units = UnitSystem::us;
  site.vessels[0].channels.clear();
  std::istringstream lines(all_words(small_plan(site)));
  // What the trade has no US unit for, or what names a substance's property, stays SI.
  const std::regex metric(R"([0-9] (degC|K|mm|cm|m|km|m2|m3|kg|kg/m3|L|MPa|kPa|Pa|bar)([ ,.;:)\]]|$))");
  const std::regex allowed(R"(Pa s/m|m2 Pa/W)");
  for (std::string line; std::getline(lines, line);) {
    const std::string rest = std::regex_replace(line, allowed, "");
    EXPECT_FALSE(std::regex_search(rest, metric)) << line;
  }
}

TEST(Plan, SuggestsAPatternThatCanBeTypedIn) {
  vessel::Suggestion two;
  two.words = "two rings";
  two.rings = {{2, 0.1, 0.0}, {4, 0.3175, 0.0}};
  two.centre = true;
  for (const vessel::Ring& ring : two.rings) {
    for (const vessel::Channel& one : vessel::ring_channels(ring, 0.1, false)) two.channels.push_back(one);
  }
  two.channels.push_back({{0.0, 0.0}, 0.1});
  EXPECT_EQ(suggestion_text(two, UnitSystem::us),
            "two rings; to type in under [vessel.channels]: count = 4, radius = \"12.5 in\", first_angle = \"0 deg\", "
            "centre = true, at = [[\"3.937 in\", \"0 in\"], [\"-3.937 in\", \"0 in\"]]");
  site::Site site = test::small_yard();
  site.vessels[0].channels.clear();
  site.vessels[0].diameter_m = 1.8;
  EXPECT_TRUE(warns(plan_for_sheets(site), "radius = \"")) << "the maker needs lengths, not words alone";
}

TEST(Hygiene, OfTheForecastHasTheEuropeanRulesToo) {
  const Plan plan = small_plan();
  const auto& core = plan.vessels[0].hygiene.core;
  const auto europe =
      std::find_if(core.begin(), core.end(), [](const rules::Verdict& one) { return one.rule_id == "europe-55"; });
  ASSERT_NE(europe, core.end());
  EXPECT_FALSE(europe->met) << "a heap that is neither turned nor blown does not meet them";
}

TEST(Hygiene, IsNotMetByTheLesserRulesAlone) {
  HygieneOutlook outlook;
  outlook.coldest = {{"vector-attraction-45", "", "", "", true, {}, {}}};
  EXPECT_FALSE(outlook.met_everywhere());
}

}  // namespace
}  // namespace stillheap::plan
