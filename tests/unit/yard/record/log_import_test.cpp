#include "yard/record/log_import.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "yard.hpp"
#include "yard/record/log_sheet.hpp"

namespace stillheap::record {
namespace {

using test::contains;
using test::refusals;
using test::Yard;

/// The blank file of the plan with these cells written into the rows of their days: "Core" and so on.
std::string filled_in(UnitSystem units, const std::vector<std::string>& rows) {
  const std::string blank = blank_log_csv(units);
  std::string text = blank.substr(0, blank.find('\n') + 1);
  for (const std::string& row : rows) text += row + "\r\n";
  for (int day = static_cast<int>(rows.size()) + 1; day <= logged_days; ++day) {
    text += std::to_string(day) + ",08:00,,,,,\r\n";
  }
  return text;
}

LogPreview preview(const Yard& yard, const std::string& text, bool sure = false) {
  return preview_log(yard.store, {yard.folder.write("log.csv", text), yard.fill_id, test::by("ab"), YardFacts{}, sure});
}

TEST(LogImport, TakesTheSheetAsThePlanWritesIt) {
  Yard yard;
  const LogPreview blank = preview(yard, blank_log_csv(UnitSystem::metric));
  EXPECT_EQ(blank.rows, 0U) << "empty rows are passed over";
  EXPECT_EQ(refusals(blank), "");

  const LogPreview seen = preview(
      yard, filled_in(UnitSystem::metric, {"1,08:00,31,22.5,right,,cd", "2,7:30,54,40,,12,", "3,08:00,,,Dry,10 min,"}));
  EXPECT_EQ(refusals(seen), "");
  EXPECT_EQ(seen.rows, 3U);
  EXPECT_EQ(import_log(yard.store, seen), 8U);
  const auto readings = of_fill<Reading>(yard.store, yard.fill_id);
  ASSERT_EQ(readings.size(), 4U);
  EXPECT_EQ(to_utc_text(readings[0].at), "2025-03-03T07:00:00Z")
      << "day 1 is the day after the filling, by the yard's clock";
  EXPECT_EQ(readings[0].mark.by, "cd") << "who read it";
  EXPECT_EQ(to_utc_text(readings[2].at), "2025-03-04T06:30:00Z");
  EXPECT_EQ(readings[2].mark.by, "ab") << "who types it in, where the row does not say";
  EXPECT_EQ(readings[1].place.name == "side" ? readings[1].value : readings[0].value, 22.5);
  const auto events = of_fill<Event>(yard.store, yard.fill_id);
  ASSERT_EQ(events.size(), 4U);
  EXPECT_EQ(events[0].note, "squeezed handful: right");
  EXPECT_EQ(events[1].kind, EventKind::sprinkled);
  EXPECT_NEAR(events[1].volume_m3.value(), 0.012, 1e-12);
  double run_s = 0.0;
  for (const Event& one : events) run_s += one.duration_s.value_or(0.0);
  EXPECT_EQ(run_s, 600.0);
}

TEST(LogImport, ReadsTheUnitsOfTheYard) {
  Yard yard;
  const LogPreview seen = preview(yard, filled_in(UnitSystem::us, {"1,08:00,131,,wet,3,"}));
  EXPECT_EQ(refusals(seen), "");
  ASSERT_EQ(seen.readings.size(), 1U);
  EXPECT_EQ(seen.readings[0].value, 55.0);  // 131 degF, NIST SP 811 appendix B.8
  EXPECT_EQ(seen.readings[0].written, "131 degF");
  ASSERT_EQ(seen.events.size(), 2U);
  EXPECT_NEAR(seen.events[1].volume_m3.value(), 3 * 3.785411784e-3, 1e-12);  // the US gallon, NIST SP 811
}

TEST(LogImport, PassesOverWhatWasTypedInTheWeekBefore) {
  Yard yard;
  const std::string first = "1,08:00,31,,right,12,";
  EXPECT_EQ(import_log(yard.store, preview(yard, filled_in(UnitSystem::metric, {first}))), 3U);
  const LogPreview again = preview(yard, filled_in(UnitSystem::metric, {first, "2,08:00,54,,,,"}));
  EXPECT_EQ(again.known, 3U);
  EXPECT_EQ(again.good(), 1U);
  EXPECT_EQ(import_log(yard.store, again), 1U);
  const LogPreview changed = preview(yard, filled_in(UnitSystem::metric, {"1,08:00,13,,wet,12,"}));
  EXPECT_EQ(changed.good(), 0U);
  EXPECT_TRUE(contains(refusals(changed), "Core (degC)|13|the records hold 31 degC for this day and hour"));
  EXPECT_TRUE(contains(refusals(changed), "Moisture|wet|the records hold squeezed handful: right"));
}

TEST(LogImport, NamesEachCellThatCannotBe) {
  Yard yard;
  const LogPreview seen =
      preview(yard,
              "Day;Time;Core (degC);Side (degC);Moisture;Water (L);Who\n"
              "1;08:00;54,5;;soaked;a pail;\nx;08:00;50;;;;\n3;late;50;;;;\n4;08:00;400;;;;\n40000;08:00;50;;;;\n"
              "1;08:00;55;;;;\n5;08:00;50;;;;far too many letters\n");
  ASSERT_EQ(seen.readings.size(), 1U);
  EXPECT_EQ(seen.readings[0].value, 54.5) << "decimals behind a comma";
  const std::string why = refusals(seen);
  EXPECT_TRUE(contains(why, "2|Moisture|soaked|is none of dry, right, wet"));
  EXPECT_TRUE(contains(why, "2|Water (L)|a pail|is no amount of water"));
  EXPECT_TRUE(contains(why, "3|Day|x|is no day"));
  EXPECT_TRUE(contains(why, "4|Time|late|is no time of day"));
  EXPECT_TRUE(contains(why, "5|Core (degC)|400|"));
  EXPECT_TRUE(contains(why, "6|Day|40000|is no day"));
  EXPECT_TRUE(contains(why, "7|Core (degC)|55|stands twice"));
  EXPECT_TRUE(contains(why, "8|Who|"));
  EXPECT_EQ(seen.refused.size(), 8U) << why;
}

TEST(LogImport, RefusesDaysToComeAndDaysAfterTheHeapWasTakenOut) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::emptied, "2025-03-10T09:00Z"));
  const std::string why =
      refusals(preview(yard, filled_in(UnitSystem::metric, {"20,08:00,40,,,,", "3600,08:00,40,,,,"})));
  EXPECT_TRUE(contains(why, "Day|20|is after batch 2026-1 was taken out")) << why;
  EXPECT_TRUE(contains(why, "Day|3600|is still to come")) << why;
}

TEST(LogImport, HoldsTheUnlikelyUntilSomebodyIsSure) {
  Yard yard;
  const std::string text = filled_in(UnitSystem::metric, {"1,08:00,95,,,,"});
  EXPECT_EQ(preview(yard, text).held.size(), 1U);
  EXPECT_EQ(preview(yard, text, true).good(), 1U);
}

TEST(LogImport, NamesMissingColumnsAndUnits) {
  Yard yard;
  for (const auto& [head, told] :
       {std::pair<std::string, std::string>{"Day,Time,Core (degC),Side,Moisture,Who", "no column \"Water\""},
        {"Day,Time,Core,Side (degC),Moisture,Water (L),Who", "names no unit"},
        {"Day,Time,Core (L),Side (degC),Moisture,Water (L),Who", "Core (L)"},
        {"", "is empty"}}) {
    try {
      (void)preview(yard, head.empty() ? head : head + "\n");
      ADD_FAILURE() << head;
    } catch (const InputError& error) {
      std::string all;
      for (const Problem& one : error.problems()) all += one.where + " " + one.what + "\n";
      EXPECT_TRUE(contains(all, told)) << all;
    }
  }
}

}  // namespace
}  // namespace stillheap::record
