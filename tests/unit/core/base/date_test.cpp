#include "core/base/date.hpp"

#include <gtest/gtest.h>

namespace stillheap::date {
namespace {

TEST(Date, ReadsAndWritesIso) {
  for (const char* text : {"2025-03-31", "2024-02-29", "1999-12-31", "2000-01-01"}) {
    const auto day = parse_iso(text);
    ASSERT_TRUE(day.has_value()) << text;
    EXPECT_EQ(to_iso(*day), text);
  }
}

TEST(Date, RefusesDaysThatDoNotExistAndOtherForms) {
  for (const char* text : {"2025-02-29", "2025-13-01", "2025-00-10", "2025-01-32", "2025-1-1", "31.03.2025", "",
                           "2025-03-31 ", "2025/03/31", "20a5-03-31", "2025-+3-31", "2025-03--1"}) {
    EXPECT_FALSE(parse_iso(text).has_value()) << text;
  }
}

TEST(Date, CountsDaysOfTheYear) {
  EXPECT_EQ(day_of_year(*parse_iso("2025-01-01")), 1);
  EXPECT_EQ(day_of_year(*parse_iso("2025-12-31")), 365);
  EXPECT_EQ(day_of_year(*parse_iso("2024-12-31")), 366);
  EXPECT_EQ(day_of_year(*parse_iso("2024-03-01")), 61);
  EXPECT_EQ(month_index(*parse_iso("2024-03-01")), 2);
}

TEST(Date, TellsTheYearOfItsFirstAndLastDay) {
  for (const int year : {1, 1900, 2024, 9999}) {
    const auto first = std::chrono::sys_days{std::chrono::year{year} / 1 / 1};
    EXPECT_EQ(year_of(first), year);
    EXPECT_EQ(year_of(first - std::chrono::days{1}), year - 1);
  }
}

TEST(Date, AddsAcrossMonthsAndYears) {
  EXPECT_EQ(to_iso(add_days(*parse_iso("2024-12-30"), 3.4)), "2025-01-02");
  EXPECT_EQ(to_iso(add_days(*parse_iso("2025-01-02"), -3.0)), "2024-12-30");
  EXPECT_EQ(to_iso(add_months(*parse_iso("2025-05-31"), 9)), "2026-02-28");
  EXPECT_EQ(to_iso(add_months(*parse_iso("2025-03-15"), 12)), "2026-03-15");
}

}  // namespace
}  // namespace stillheap::date
