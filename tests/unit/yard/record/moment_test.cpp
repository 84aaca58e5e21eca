#include "yard/record/moment.hpp"

#include <gtest/gtest.h>

#include <cstdlib>

#include "core/base/error.hpp"

namespace stillheap::record {
namespace {

std::string utc(const std::string& text, const std::string& zone) {
  return to_utc_text(parse_instant(text, zone, "test"));
}

WallTime wall(const std::string& text) { return read_time(text, "iso").value().wall; }

TEST(Moments, AreReadWithTheirOffsetOrInTheirZone) {
  EXPECT_EQ(utc("2026-07-01T14:05Z", "Europe/Paris"), "2026-07-01T14:05:00Z");
  EXPECT_EQ(utc("2026-07-01T14:05+02:00", "UTC"), "2026-07-01T12:05:00Z");
  EXPECT_EQ(utc("2026-07-01 14:05", "Europe/Paris"), "2026-07-01T12:05:00Z");
  EXPECT_EQ(utc("2026-01-01T14:05:09.7", "America/Los_Angeles"), "2026-01-01T22:05:09Z");
  EXPECT_EQ(utc("2026-07-01", "+05:30"), "2026-06-30T18:30:00Z");
}

TEST(Moments, AreWrittenInTheirZone) {
  const Instant at = parse_instant("2026-07-01T12:05Z", "UTC", "test");
  EXPECT_EQ(to_local_text(at, "Europe/Paris"), "2026-07-01T14:05:00+02:00");
  EXPECT_EQ(to_local_text(at, "America/St_Johns"), "2026-07-01T09:35:00-02:30");
  EXPECT_EQ(to_local_text(at, "-03:00"), "2026-07-01T09:05:00-03:00");
}

TEST(Moments, RefuseTheHourThatTheClocksJumpOver) {
  EXPECT_TRUE(instants_of(wall("2026-03-29 02:30"), "Europe/Paris").empty());
  EXPECT_THROW((void)parse_instant("2026-03-29 02:30", "Europe/Paris", "test"), InputError);
}

TEST(Moments, FindBothInTheHourThatComesTwice) {
  const auto both = instants_of(wall("2026-10-25 02:30"), "Europe/Paris");
  ASSERT_EQ(both.size(), 2U);
  EXPECT_EQ(to_utc_text(both[0]), "2026-10-25T00:30:00Z");
  EXPECT_EQ(to_utc_text(both[1]), "2026-10-25T01:30:00Z");
}

TEST(Moments, FollowAPattern) {
  const auto read = read_time("07/04/2026 01:05:00 PM", "%m/%d/%Y %I:%M:%S %p");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->wall, wall("2026-07-04 13:05"));
  EXPECT_EQ(read_time("4.7.2026 13:05", "%d.%m.%Y %H:%M")->wall, wall("2026-07-04 13:05"));
  EXPECT_FALSE(read_time("31.02.2026 13:05", "%d.%m.%Y %H:%M"));
  EXPECT_FALSE(read_time("04.07.2026 13:05 or so", "%d.%m.%Y %H:%M"));
  EXPECT_FALSE(read_time("04.07.2026", "%d.%m.%Y %H:%M"));
  EXPECT_FALSE(read_time("", "iso"));
}

TEST(Moments, KnowZones) {
  for (const char* zone : {"UTC", "Europe/Paris", "America/Los_Angeles", "+02:00", "-0330", "Z"}) {
    EXPECT_TRUE(is_zone(zone)) << zone;
  }
  for (const char* zone : {"", "Paris", "+2", "+99:00", "../etc/passwd"}) EXPECT_FALSE(is_zone(zone)) << zone;
  EXPECT_TRUE(is_zone(here()));
  const std::string before = std::getenv("TZ") == nullptr ? "" : std::getenv("TZ");
  ::setenv("TZ", ":America/Denver", 1);
  EXPECT_EQ(here(), "America/Denver");
  ::setenv("TZ", "CET-1CEST,M3.5.0,M10.5.0/3", 1);
  EXPECT_TRUE(is_zone(here())) << "no name: the machine's own";
  if (before.empty())
    ::unsetenv("TZ");
  else
    ::setenv("TZ", before.c_str(), 1);
}

TEST(Moments, CountTheDayWhereItWasNoted) {
  const Instant at = parse_instant("2026-07-01T23:30Z", "UTC", "test");
  EXPECT_EQ(local_day(at, "Europe/Paris"), local_day(at, "UTC") + std::chrono::days{1});
}

TEST(Moments, ATimeWithoutSecondsBehindItsColonIsNone) {
  for (const char* const text :
       {"2025-03-06T10:00:)0+01:00", "2025-03-06T10:00:", "2025-03-06T10::00", "2025-03-06 10:x"}) {
    EXPECT_FALSE(read_time(text, "iso")) << text;
  }
  EXPECT_TRUE(read_time("2025-03-06T10:00:05.5+01:00", "iso"));
}

TEST(Moments, ReadsTheOffsetAtTheEndOfAnyPatternAndNoneThatIsNoNumber) {
  for (const char* pattern : {"%d-%b-%Y %H:%M %z", "%d-%b-%Y %H:%M %Ez"}) {
    for (const char* text : {"02-Mar-2025 10:00 -05:30", "02-Mar-2025 10:00 -0530"}) {
      const auto read = read_time(text, pattern);
      ASSERT_TRUE(read) << text << pattern;
      EXPECT_EQ(read->wall, wall("2025-03-02T10:00"));
      EXPECT_EQ(read->offset, std::chrono::minutes{-330});
    }
    for (const char* text :
         {"02-Mar-2025 10:00", "02-Mar-2025 10:00 -", "02-Mar-2025 10:00 --05:30", "02-Mar-2025 10:00 -x5:30"})
      EXPECT_FALSE(read_time(text, pattern)) << text;
  }
  for (const char* text : {"2025-03-06T10:00-", "2025-03-06T10:00-:x", "2025-03-06T10:00--01:00", "2025-03-06T10:00-1"})
    EXPECT_FALSE(read_time(text, "iso")) << text;
  EXPECT_EQ(read_time("2025-03-06T10:00:05Z", "iso")->offset, std::chrono::minutes{0});
}

}  // namespace
}  // namespace stillheap::record
