#include "yard/record/due.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "yard.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

std::vector<DueKind> kinds_at(const Yard& yard, const std::string& when) {
  std::vector<DueKind> kinds;
  for (const Due& one : due_list(record::yard(yard.store), all<DueDay>(yard.store), test::at(when), "Europe/Paris")) {
    kinds.push_back(one.kind);
  }
  return kinds;
}

std::string yard_design(const Yard& yard) {
  const VesselGlance glance = record::yard(yard.store).front();
  return glance.vessel.design.empty() ? glance.vessel.name : glance.vessel.design;
}

using Kinds = std::vector<DueKind>;

TEST(DueList, AsksForAFirstReadingAtOnce) {
  Yard yard;  // filled 2025-03-02T09:00Z
  EXPECT_EQ(kinds_at(yard, "2025-03-02T09:10Z"), Kinds{DueKind::reading}) << "what was never read is not told as fine";
  (void)add(yard.store, test::reading(yard.fill_id, 18.0, "2025-03-02T09:20Z"));
  EXPECT_EQ(kinds_at(yard, "2025-03-02T18:00Z"), Kinds{});
}

TEST(DueList, AsksForWhatTheDayAfterFillingBrings) {
  Yard yard;  // filled 2025-03-02T09:00Z
  (void)add(yard.store, test::reading(yard.fill_id, 18.0, "2025-03-02T09:20Z"));
  EXPECT_EQ(kinds_at(yard, "2025-03-02T18:00Z"), Kinds{});
  EXPECT_EQ(kinds_at(yard, "2025-03-03T10:00Z"), (Kinds{DueKind::forms_out, DueKind::sprinkle, DueKind::reading}));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-03T10:10Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 40.0, "2025-03-03T10:10Z"));
  EXPECT_EQ(kinds_at(yard, "2025-03-03T11:00Z"), Kinds{});
}

TEST(DueList, CountsCalendarDaysWhereTheYardIs) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-03T22:30Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 40.0, "2025-03-03T22:30Z"));
  EXPECT_EQ(kinds_at(yard, "2025-03-03T22:59Z"), Kinds{});
  EXPECT_EQ(kinds_at(yard, "2025-03-03T23:01Z"), (Kinds{DueKind::sprinkle, DueKind::reading})) << "midnight in Paris";
}

TEST(DueList, SprinklesAsTheProgrammeAsks) {
  Yard yard;  // filled 2025-03-02
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-03T10:00Z"));
  Rhythm rhythm;
  WaterAsked asked{3, "sprinkle: 2 min, 16 L", "every 3 days by the water programme"};
  rhythm.water = [&](const VesselGlance&, date::Day) { return asked; };
  const auto sprinkling = [&](const std::string& when) {
    std::vector<Due> found;
    for (const Due& one : due_list(record::yard(yard.store), {}, test::at(when), "Europe/Paris", rhythm)) {
      if (one.kind == DueKind::sprinkle) found.push_back(one);
    }
    return found;
  };
  EXPECT_TRUE(sprinkling("2025-03-05T10:00Z").empty());
  ASSERT_EQ(sprinkling("2025-03-06T10:00Z").size(), 1U);
  EXPECT_EQ(sprinkling("2025-03-06T10:00Z").front().what, "sprinkle: 2 min, 16 L");
  EXPECT_NE(sprinkling("2025-03-06T10:00Z").front().why.find("every 3 days by the water programme"), std::string::npos);
  asked.every_days = 0;
  EXPECT_TRUE(sprinkling("2025-04-06T10:00Z").empty()) << "the line is drained, or it holds enough";
}

TEST(DueList, AsksOldHeapsLessOften) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-05-10T10:00Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 30.0, "2025-05-04T09:00Z"));
  EXPECT_EQ(kinds_at(yard, "2025-05-10T11:00Z"), Kinds{});
  EXPECT_EQ(kinds_at(yard, "2025-05-11T09:00Z"), (Kinds{DueKind::reading, DueKind::sprinkle}));
}

TEST(DueList, ForgetsHarvestedFills) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::harvested, "2025-03-20T10:00Z"));
  EXPECT_EQ(kinds_at(yard, "2025-03-25T11:00Z"), Kinds{});
}

TEST(DueList, ShowsPlannedDaysNearTheirDate) {
  Yard yard;
  (void)add(yard.store, DueDay{test::by("ab"), "north", "2025-07-01", "2025-07-20", "put the worms in"});
  (void)add(yard.store, test::event(yard.fill_id, EventKind::emptied, "2025-03-20T10:00Z"));
  EXPECT_EQ(kinds_at(yard, "2025-06-01T11:00Z"), Kinds{});
  EXPECT_EQ(kinds_at(yard, "2025-06-20T11:00Z"), Kinds{DueKind::planned});
  EXPECT_EQ(kinds_at(yard, "2025-08-02T11:00Z"), Kinds{DueKind::planned});
  EXPECT_EQ(kinds_at(yard, "2025-08-05T11:00Z"), Kinds{});
}

TEST(DueList, TicksAPlannedDayOffWhenTheRecordShowsIt) {
  Yard yard;  // filled 2025-03-02T09:00Z, vessel of design "north"
  const auto plan = [&](const char* date, const char* what, const char* vessel) {
    (void)add(yard.store, DueDay{test::by("ab"), vessel, date, "", what});
  };
  const auto planned = [&](const std::string& when) {
    std::vector<std::string> what;
    for (const Due& one : due_list(record::yard(yard.store), all<DueDay>(yard.store), test::at(when), "Europe/Paris")) {
      if (one.kind == DueKind::planned) what.push_back(one.what);
    }
    return what;
  };
  using What = std::vector<std::string>;
  plan("2025-02-22", "Level the ground, build bases and cages", "");
  EXPECT_EQ(planned("2025-03-03T10:00Z"), What{}) << "it was filled: the ground is level";
  plan("2025-03-03", "Pull the forms straight up", yard_design(yard).c_str());
  EXPECT_EQ(planned("2025-03-03T10:00Z"), What{"Pull the forms straight up"});
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T10:00Z"));
  EXPECT_EQ(planned("2025-03-03T11:00Z"), What{});
  plan("2025-03-05", "Mend the fence", "");
  EXPECT_EQ(planned("2025-03-05T11:00Z"), What{"Mend the fence"}) << "nothing in the record ticks that off";
  plan("2026-02-25", "Level the ground, build bases and cages", "");
  EXPECT_EQ(planned("2026-02-25T11:00Z"), What{"Level the ground, build bases and cages"}) << "another year's";
}

TEST(PlanDays, AreTheSameEachTimeTheyAreRead) {
  const std::string plan =
      R"({"calendar": [{"date": "2025-07-01", "latest_date": "", "vessel": "north", "what": "put the worms in"}]})";
  Yard yard;
  for (int i = 0; i < 2; ++i) {
    for (const DueDay& day : due_days_of_plan(plan, test::by("ab"))) (void)add(yard.store, day);
  }
  ASSERT_EQ(all<DueDay>(yard.store).size(), 1U);
  EXPECT_EQ(all<DueDay>(yard.store).front().what, "put the worms in");
  for (const char* bad : {"", "{}", R"({"calendar": [{}]})"}) {
    EXPECT_THROW((void)due_days_of_plan(bad, test::by("ab")), InputError) << bad;
  }
}

}  // namespace
}  // namespace stillheap::record
