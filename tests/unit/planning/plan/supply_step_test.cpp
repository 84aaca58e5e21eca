#include "planning/plan/supply_step.hpp"

#include <gtest/gtest.h>
#include <libical/ical.h>

#include <cmath>
#include <map>
#include <memory>
#include <numeric>
#include <set>
#include <sstream>

#include "core/base/delimited.hpp"
#include "planning/plan/hours.hpp"
#include "planning/plan/plan_json.hpp"
#include "planning/plan/practice.hpp"
#include "planning/plan/sheet_plan.hpp"
#include "yard.hpp"

namespace stillheap::plan {
namespace {

/// The small yard with compost wanted in spring and late summer, and manure that comes in winter and keeps for a while.
site::Site yard_with_supply() {
  site::Site site = test::small_yard();
  site::SupplyGoal& supply = site.supply.emplace();
  supply.vessel = "north bed";
  supply.wanted_m3 = {0, 0, 1.0, 1.4, 0.6, 0, 0, 0.8, 0, 0, 0, 0};
  supply.rest_s = 7 * constant::seconds_per_day;
  supply.store_s = 180 * constant::seconds_per_day;
  site.seasons["horse-manure"] = {{3, 3, 3, 2, 1, 1, 1, 1, 1, 2, 3, 3}, 60 * constant::seconds_per_day};
  return site;
}

Plan planned(const site::Site& site) { return make_plan(site, {}, test::small_engine()); }

/// Columns of a CSV text by their heads, words as they stand there.
std::map<std::string, std::vector<std::string>> columns_of(const std::string& text) {
  std::istringstream lines(text);
  std::string line;
  std::getline(lines, line);
  const std::vector<std::string> heads = *split_record(trimmed(line), ',');
  std::map<std::string, std::vector<std::string>> columns;
  while (std::getline(lines, line)) {
    const std::vector<std::string> cells = *split_record(trimmed(line), ',');
    EXPECT_EQ(cells.size(), heads.size()) << line;
    for (std::size_t i = 0; i < heads.size(); ++i) columns[heads[i]].push_back(cells[i]);
  }
  return columns;
}

double sum(const std::vector<std::string>& cells) {
  return std::accumulate(cells.begin(), cells.end(), 0.0,
                         [](double so_far, const std::string& cell) { return so_far + number_of(cell).value(); });
}

/// Fields of the events of a calendar file by UID, read by libical.
std::map<std::string, std::string> events_of(const std::string& text) {
  const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar(icalparser_parse_string(text.c_str()),
                                                                               icalcomponent_free);
  std::map<std::string, std::string> events;
  if (!calendar) return events;
  EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
  for (icalcomponent* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
       event != nullptr; event = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    const bool fresh =
        events
            .emplace(icalcomponent_get_uid(event), std::string(icalcomponent_get_summary(event)) + " on " +
                                                       icaltime_as_ical_string(icalcomponent_get_dtstart(event)))
            .second;
    EXPECT_TRUE(fresh) << "twice: " << icalcomponent_get_uid(event);
  }
  return events;
}

TEST(SupplyStep, IsNothingWhereNoneIsWanted) {
  const Plan plan = planned(test::small_yard());
  EXPECT_FALSE(plan.supply);
  EXPECT_TRUE(supply_warnings(plan).empty());
  EXPECT_TRUE(supply_choices(plan).empty());
  EXPECT_TRUE(to_json(plan)["yard_plan"].is_null());
}

TEST(SupplyStep, TakesYieldAndTimeFromTheForecast) {
  const Plan plan = planned(yard_with_supply());
  ASSERT_TRUE(plan.supply);
  const VesselPlan& vessel = plan.vessels[0];
  const forecast::Summary& summary = vessel.forecast.summary;
  const double density_kg_m3 = summary.finished_mass_kg.middle / summary.finished_volume_m3.middle;
  EXPECT_NEAR(plan.supply->wish.yield_m3, summary.finished_volume_m3.middle - vessel.fill.inoculum_kg / density_kg_m3,
              1e-12);
  EXPECT_GT(plan.supply->wish.yield_m3, 0.0);
  EXPECT_EQ(plan.supply->wish.harvest_days, vessel.harvest.late_day);
  ASSERT_TRUE(plan.supply->places_low && plan.supply->places_high);
  EXPECT_LE(*plan.supply->places_low, plan.supply->plan.places);
  EXPECT_GE(*plan.supply->places_high, plan.supply->plan.places);
}

TEST(SupplyStep, PrefersYieldAndTimeOfTheSiteFile) {
  site::Site site = yard_with_supply();
  site.supply->yield_m3 = 0.4;
  site.supply->harvest_after_s = 250 * constant::seconds_per_day;
  const Plan plan = planned(site);
  ASSERT_TRUE(plan.supply);
  EXPECT_EQ(plan.supply->wish.yield_m3, 0.4);
  EXPECT_EQ(plan.supply->wish.harvest_days, 250.0);
  EXPECT_FALSE(plan.supply->places_low) << "a yield that is given has no band";
  EXPECT_EQ(plan.supply->plan.fills_a_year, 10) << "3.8 m3 wanted, 0.4 m3 a filling, none may be short";
}

TEST(SupplyStep, NeedsBothOfThemWithoutAForecast) {
  site::Site site = yard_with_supply();
  site.supply->yield_m3 = 0.4;
  EXPECT_FALSE(plan_for_sheets(site).supply);
  site.supply->harvest_after_s = 250 * constant::seconds_per_day;
  const Plan plan = plan_for_sheets(site);
  ASSERT_TRUE(plan.supply);
  EXPECT_EQ(plan.supply->plan.fills_a_year, 10);
}

TEST(SupplyStep, FillsNothingInTheColdUnlessTold) {
  site::Site site = yard_with_supply();
  const auto fills_in_january = [](const Plan& plan) {
    return plan.supply->wish.may_fill[0] || plan.supply->plan.fills[0] + plan.supply->plan.fills[1] > 0;
  };
  EXPECT_FALSE(fills_in_january(planned(site))) << "mean air of 0.5 degC";
  site.supply->fill_in_cold = true;
  EXPECT_TRUE(planned(site).supply->wish.may_fill[0]);
}

TEST(SupplyCsv, AddsUpToWhatIsWantedHarvestedAndFilledIn) {
  const Plan plan = planned(yard_with_supply());
  ASSERT_TRUE(plan.supply && plan.supply->met);
  const supply::Outcome& outcome = *plan.supply;
  auto columns = columns_of(supply::supply_csv(outcome));
  ASSERT_EQ(columns["first_day"].size(), 24U);
  EXPECT_EQ(columns["first_day"].front(), "2025-04-01");
  EXPECT_EQ(columns["last_day"].back(), "2026-03-31");
  EXPECT_NEAR(sum(columns["wanted_m3"]), 3.8, 1e-6);
  EXPECT_NEAR(sum(columns["given_out_m3"]), 3.8, 1e-6);
  EXPECT_NEAR(sum(columns["short_m3"]), 0.0, 1e-6);
  const double harvested = outcome.plan.fills_a_year * outcome.wish.yield_m3;
  EXPECT_EQ(sum(columns["fillings"]), outcome.plan.fills_a_year);
  EXPECT_EQ(sum(columns["harvests"]), outcome.plan.fills_a_year);
  EXPECT_NEAR(sum(columns["harvested_m3"]), harvested, 1e-6);
  EXPECT_NEAR(sum(columns["spare_m3"]), harvested - 3.8, 1e-6);
  const material::Blend& blend = plan.vessels[0].blend_as_delivered;
  const auto manure = std::find_if(blend.parts.begin(), blend.parts.end(),
                                   [](const material::Part& part) { return part.feedstock.id == "horse-manure"; });
  ASSERT_NE(manure, blend.parts.end());
  EXPECT_NEAR(sum(columns["horse-manure_filled_in_m3"]),
              outcome.plan.fills_a_year * manure->mass_wet_kg / manure->feedstock.bulk_density_kg_m3, 1e-6);
  EXPECT_NEAR(sum(columns["horse-manure_arises_m3"]), 24.0, 1e-6);
}

TEST(SupplyCsv, CountsTheHoursOfTheWorkOrderAndTheDailyRound) {
  site::Site site = yard_with_supply();
  site.labour.daily_minutes_per_vessel = 2.0;
  const Plan plan = planned(site);
  const VesselHours one = hours_of(plan.site, plan.vessels[0]);
  auto columns = columns_of(supply::supply_csv(*plan.supply));
  const double jobs = one.soaking + one.filling + one.forms_out + one.covering + one.worms + one.harvest;
  // A stay is counted in whole half-months, so its rounds are known to half a month only.
  const double rounds = plan.supply->wish.harvest_days * one.daily;
  EXPECT_NEAR(sum(columns["hours"]) / plan.supply->plan.fills_a_year, jobs + rounds, 16.0 * one.daily);
}

TEST(SupplyCalendar, IsReadByLibicalWithAnEntryForEachHalfMonthOfWork) {
  const Plan plan = planned(yard_with_supply());
  const supply::Outcome& outcome = *plan.supply;
  const auto events = events_of(supply::supply_ics(outcome, UnitSystem::metric));
  std::set<int> fill, harvest;
  for (const supply::Stay& stay : outcome.stays) {
    if (stay.year != 0) continue;
    fill.insert(stay.fill);
    harvest.insert(stay.harvest);
  }
  ASSERT_FALSE(fill.empty());
  EXPECT_EQ(events.size(), fill.size() + harvest.size());
  for (const auto& [uid, words] : events) {
    EXPECT_TRUE(words.starts_with("Fill place") || words.starts_with("Harvest place")) << words;
    EXPECT_TRUE(uid.ends_with("@hollow-lane")) << uid;
  }
}

TEST(SupplyCalendar, KeepsItsEntriesFromRunToRunAndWhenTheYieldChanges) {
  const Plan plan = planned(yard_with_supply());
  const std::string text = supply::supply_ics(*plan.supply, UnitSystem::metric);
  EXPECT_EQ(text, supply::supply_ics(*planned(yard_with_supply()).supply, UnitSystem::metric));
  site::Site site = yard_with_supply();
  site.supply->yield_m3 = plan.supply->wish.yield_m3 * 1.001;  // the same plan with other words
  const auto before = events_of(text);
  const auto after = events_of(supply::supply_ics(*planned(site).supply, UnitSystem::us));
  ASSERT_EQ(before.size(), after.size());
  EXPECT_TRUE(std::equal(before.begin(), before.end(), after.begin(),
                         [](const auto& one, const auto& other) { return one.first == other.first; }));
}

TEST(SupplyStep, SaysWhatIsShortAndEveryWayOut) {
  site::Site site = yard_with_supply();
  site.supply->places = 1;
  const Plan plan = planned(site);
  ASSERT_TRUE(plan.supply);
  EXPECT_FALSE(plan.supply->met);
  const Warnings warnings = supply_warnings(plan);
  ASSERT_EQ(warnings.size(), 1U);
  EXPECT_NE(warnings[0].what.find("wanted cannot be ready"), std::string::npos) << warnings[0].what;
  EXPECT_NE(warnings[0].what.find("(supply.places)"), std::string::npos) << warnings[0].what;
  const auto json = nlohmann::json::parse(to_text(to_json(plan)));
  EXPECT_EQ(json["yard_plan"]["meets_what_is_wanted"], false);
  EXPECT_EQ(json["yard_plan"]["half_months"].size(), 24U);
  auto columns = columns_of(supply::supply_csv(*plan.supply));
  EXPECT_GT(sum(columns["short_m3"]), 0.1);
  EXPECT_NEAR(sum(columns["given_out_m3"]) + sum(columns["short_m3"]), 3.8, 1e-6);
}

}  // namespace
}  // namespace stillheap::plan
