#include "planning/plan/calendar.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "core/base/date.hpp"
#include "planning/plan/hours.hpp"
#include "yard.hpp"

namespace stillheap::plan {
namespace {

Plan small_plan(const site::Site& site = test::small_yard()) { return make_plan(site, {}, test::small_engine()); }

const CalendarEntry* find(const Plan& plan, const std::string& words) {
  const auto found = std::find_if(plan.calendar.begin(), plan.calendar.end(), [&](const CalendarEntry& entry) {
    return entry.what.find(words) != std::string::npos;
  });
  return found == plan.calendar.end() ? nullptr : &*found;
}

TEST(Calendar, DatesTheWorkFromOrderToHarvest) {
  const Plan plan = small_plan();
  ASSERT_EQ(days_of_filling(plan.vessels[0]), 2);
  const std::pair<const char*, const char*> wanted[] = {
      {"Order", "2025-03-18"},          {"Level the ground", "2025-03-25"}, {"Fill:", "2025-04-01"},
      {"Pull the forms", "2025-04-03"}, {"First checks", "2025-04-04"},     {"Hottest", "2025-04-05"},
      {"Add worms", "2025-06-12"},      {"Harvest window", "2025-12-31"}};
  for (const auto& [words, date] : wanted) {
    const CalendarEntry* entry = find(plan, words);
    ASSERT_NE(entry, nullptr) << words;
    EXPECT_EQ(entry->date, date) << words;
  }
}

TEST(Calendar, WaitsWithTheFormsUntilAVesselThatTakesDaysIsFull) {
  Plan plan = small_plan();
  plan.vessels[0].fill.clock_s = 23.75 * 3600.0;  // three working days
  plan.calendar = calendar_of(plan);
  EXPECT_EQ(find(plan, "Fill:")->date, "2025-04-01");
  EXPECT_EQ(find(plan, "Pull the forms")->date, "2025-04-04");
  EXPECT_EQ(find(plan, "First checks")->date, "2025-04-05");
  EXPECT_EQ(days_between_fillings(plan.site, plan.vessels[0]), 4) << "three to fill, one for the forms";
}

TEST(Calendar, BandsTheHotPhaseAndTheWorms) {
  const Plan plan = small_plan();
  // 55 degC is crossed on day 4 and again on day 20 + 60 * 10 / 45 = 33.3.
  EXPECT_EQ(find(plan, "Hot phase")->date, "2025-04-05");
  EXPECT_GE(find(plan, "Hot phase")->latest_date, "2025-05-04");
  EXPECT_GE(find(plan, "Add worms")->latest_date, "2025-06-30");
  ASSERT_NE(find(plan, "hygiene rule \"static-aerated-55\""), nullptr);
  EXPECT_EQ(find(plan, "hygiene rule \"static-aerated-55\"")->date, "2025-04-08");
}

TEST(Calendar, StandsInOrderOfDate) {
  const Plan plan = small_plan();
  EXPECT_TRUE(std::is_sorted(plan.calendar.begin(), plan.calendar.end(),
                             [](const CalendarEntry& a, const CalendarEntry& b) { return a.date < b.date; }));
}

TEST(Calendar, StartsTheWaterWhenItFirstRunsAndSaysSoWhereItNeverDoes) {
  Plan plan = small_plan();
  auto& rows = plan.vessels[0].programme.rows;
  rows.assign(2, water::Row{});
  rows[0].first = *date::parse_iso("2025-04-01");
  rows[1].first = *date::parse_iso("2025-05-16");
  rows[1].setting = water::Setting::runs;
  rows[1].runs = 3;
  rows[1].run_kg = 8.0;
  plan.calendar = calendar_of(plan);
  ASSERT_NE(find(plan, "Start the water programme"), nullptr);
  EXPECT_EQ(find(plan, "Start the water programme")->date, "2025-05-16");
  rows[1].setting = water::Setting::enough;
  rows[1].runs = 0;
  plan.calendar = calendar_of(plan);
  EXPECT_EQ(find(plan, "Start the water programme"), nullptr);
  EXPECT_NE(find(plan, "No watering to start"), nullptr);
  EXPECT_EQ(find(plan, "the programme stops"), nullptr);
}

TEST(Calendar, DrainsTheLineBeforeFrostOnly) {
  const Plan plan = small_plan();
  const CalendarEntry* drain = find(plan, "Drain water line");
  ASSERT_NE(drain, nullptr);
  EXPECT_GT(drain->date, "2025-10-01");
  EXPECT_LT(drain->date, "2025-12-15");
  site::Site warm = test::small_yard();
  for (double& low_c : warm.weather.monthly.low_c) low_c += 12.0;
  for (double& high_c : warm.weather.monthly.high_c) high_c += 12.0;
  EXPECT_EQ(find(small_plan(warm), "Drain water line"), nullptr);
}

TEST(Calendar, KeepsWormsOutOfTheFirstWeeks) {
  const Plan plan = make_plan(test::small_yard(), {}, [](const forecast::Request& request, const Progress&) {
    forecast::Result result = test::small_forecast(request);
    for (forecast::HistoryRow& row : result.history) row.core_c = row.hottest_c = 20.0;
    result.summary.cool_day = 3.0;
    result.summary.rests = {{3.0, static_cast<double>(request.days)}};
    result.summary.cool_day_low = 0.0;  // a member of the band that never heated
    return result;
  });
  EXPECT_EQ(find(plan, "Add worms")->date, "2025-04-29");
}

TEST(Calendar, PutsNoWormsIntoColdOrDryHeaps) {
  const auto with = [](const std::function<void(forecast::HistoryRow&)>& change) {
    return make_plan(test::small_yard(), {}, [change](const forecast::Request& request, const Progress&) {
      forecast::Result result = test::small_forecast(request);
      for (forecast::HistoryRow& row : result.history) change(row);
      return result;
    });
  };
  EXPECT_EQ(find(with([](auto& row) { row.mean_moisture_wet = 0.30; }), "Add worms"), nullptr);
  EXPECT_EQ(find(with([](auto& row) { row.core_c = row.hottest_c = 5.0; }), "Add worms"), nullptr);
  EXPECT_EQ(find(with([](auto& row) { row.mean_oxygen = 0.03; }), "Add worms"), nullptr);
  EXPECT_NE(find(with([](auto&) {}), "Add worms"), nullptr);
}

TEST(EndState, CallsNoHeapCompostThatNeverHeatedOrHardlyDecayed) {
  forecast::Summary summary;
  summary.cool_day = 200.0;
  summary.degradable_left = {0.3, 0.2, 0.4};
  EXPECT_EQ(end_state(summary), EndState::finished);
  summary.degradable_left.middle = 0.9;  // sawdust that lost 6 %
  EXPECT_EQ(end_state(summary), EndState::hardly_decayed);
  summary.heated = false;
  EXPECT_EQ(end_state(summary), EndState::never_heated);
  summary = {};
  summary.degradable_left.middle = 0.3;
  EXPECT_EQ(end_state(summary), EndState::working) << "self-heating does not end within the forecast";
}

TEST(Calendar, SaysWhenTheForecastEndsWarm) {
  const Plan plan = make_plan(test::small_yard(), {}, [](const forecast::Request& request, const Progress&) {
    forecast::Result result = test::small_forecast(request);
    result.summary.cool_day.reset();
    result.summary.rests.clear();
    return result;
  });
  EXPECT_EQ(find(plan, "Add worms"), nullptr);
  EXPECT_FALSE(plan.vessels.front().worms.day);
  EXPECT_FALSE(plan.vessels.front().worms.why_none.empty());
  EXPECT_NE(find(plan, "by age alone"), nullptr);
}

}  // namespace
}  // namespace stillheap::plan
