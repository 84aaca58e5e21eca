#include "yard/record/read.hpp"

#include <gtest/gtest.h>

#include "yard.hpp"

namespace stillheap::record {
namespace {

using test::Yard;

TEST(LastReadings, AreOneAPlaceAndMeasure) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 60.0, "2025-03-05T08:00Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-04T08:00Z"));  // noted later, read earlier
  (void)add(yard.store, test::reading(yard.fill_id, 40.0, "2025-03-04T08:00Z", "wall"));
  Reading wet = test::reading(yard.fill_id, 0.61, "2025-03-03T08:00Z");
  wet.measure = Measure::moisture;
  (void)add(yard.store, wet);
  const std::vector<Reading> last = last_readings(yard.store, yard.fill_id);
  ASSERT_EQ(last.size(), 3U);
  EXPECT_EQ(last[0].measure, Measure::moisture);
  EXPECT_EQ(last[1].value, 60.0);
  EXPECT_EQ(last[2].place.name, "wall");
}

TEST(LastReadings, FallBackWhenTheLastIsWithdrawn) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 50.0, "2025-03-04T08:00Z"));
  Reading gone;
  gone.mark = test::by("ab");
  gone.mark.corrects = add(yard.store, test::reading(yard.fill_id, 90.0, "2025-03-05T08:00Z")).id;
  gone.mark.reason = "probe in the sun";
  gone.mark.withdrawn = true;
  (void)add(yard.store, gone);
  ASSERT_EQ(last_readings(yard.store, yard.fill_id).size(), 1U);
  EXPECT_EQ(last_readings(yard.store, yard.fill_id).front().value, 50.0);
}

TEST(ReadingsBetween, AreInOrderOfTimeAndHalfOpen) {
  Yard yard;
  for (const char* when : {"2025-03-06T08:00Z", "2025-03-04T08:00Z", "2025-03-05T08:00Z"}) {
    (void)add(yard.store, test::reading(yard.fill_id, 50.0, when));
  }
  const auto found = readings_between(yard.store, yard.fill_id, test::at("2025-03-04T08:00Z"),
                                      test::at("2025-03-06T08:00Z"), Measure::temperature);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_LT(found[0].at, found[1].at);
  EXPECT_TRUE(readings_between(yard.store, yard.fill_id, test::at("2025-03-04T08:00Z"), test::at("2025-03-06T08:00Z"),
                               Measure::oxygen)
                  .empty());
}

TEST(YardGlance, ShowsTheFillThatIsInTheVesselNow) {
  Yard yard;
  (void)add(yard.store, test::vessel("east 1"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T09:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-03T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-04T10:00Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 60.0, "2025-03-05T08:00Z"));
  std::vector<VesselGlance> seen = record::yard(yard.store);
  ASSERT_EQ(seen.size(), 2U);
  EXPECT_EQ(seen[0].vessel.name, "east 1");
  EXPECT_FALSE(seen[0].fill);
  ASSERT_TRUE(seen[1].fill);
  EXPECT_EQ(seen[1].fill->batch, "2026-1");
  EXPECT_EQ(seen[1].last.size(), 1U);
  EXPECT_EQ(seen[1].events.at(EventKind::sprinkled).at, test::at("2025-03-04T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::harvested, "2025-05-04T10:00Z"));
  seen = record::yard(yard.store);
  EXPECT_FALSE(seen[1].fill);
}

TEST(YardGlance, IsOfTheTimeAskedFor) {
  Yard yard;
  (void)add(yard.store, test::reading(yard.fill_id, 55.0, "2025-03-05T09:00Z"));
  (void)add(yard.store, test::reading(yard.fill_id, 40.0, "2025-06-05T09:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::forms_out, "2025-03-03T09:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-06-03T09:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::emptied, "2025-09-01T09:00Z"));
  const auto glance = [&](const char* when) { return record::yard(yard.store, test::at(when)).at(0); };
  EXPECT_FALSE(glance("2025-03-01T09:00Z").fill) << "not filled yet";
  const VesselGlance spring = glance("2025-04-01T09:00Z");
  ASSERT_TRUE(spring.fill) << "emptied later";
  ASSERT_EQ(spring.last.size(), 1U);
  EXPECT_DOUBLE_EQ(spring.last.front().value, 55.0);
  EXPECT_EQ(spring.events.size(), 1U);
  EXPECT_DOUBLE_EQ(glance("2025-08-01T09:00Z").last.front().value, 40.0);
  EXPECT_FALSE(glance("2025-09-02T09:00Z").fill);
  EXPECT_FALSE(record::yard(yard.store).at(0).fill);
}

TEST(FillsOfAVessel, AreAllThatStandTheLatestFirstWithWhatEndedThem) {
  Yard yard;
  (void)add(yard.store, test::event(yard.fill_id, EventKind::sprinkled, "2025-03-04T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::harvested, "2025-05-04T10:00Z"));
  (void)add(yard.store, test::event(yard.fill_id, EventKind::emptied, "2025-05-06T10:00Z"));
  (void)add(yard.store, test::fill(yard.vessel_id, "2026-2", "2025-06-02T09:00Z"));
  const std::string other = add(yard.store, test::vessel("east 1")).id;
  (void)add(yard.store, test::fill(other, "2026-3"));
  const std::vector<VesselFill> fills = fills_of(yard.store, yard.vessel_id);
  ASSERT_EQ(fills.size(), 2U);
  EXPECT_EQ(fills[0].fill.batch, "2026-2");
  EXPECT_FALSE(fills[0].ended);
  EXPECT_EQ(fills[1].fill.batch, "2026-1");
  ASSERT_TRUE(fills[1].ended);
  EXPECT_EQ(fills[1].ended->at, test::at("2025-05-04T10:00Z")) << "the first of the two";
  EXPECT_TRUE(fills_of(yard.store, yard.fill_id).empty()) << "no vessel's id";
}

}  // namespace
}  // namespace stillheap::record
