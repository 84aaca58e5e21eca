#include "domain/weather/table.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace stillheap::weather {
namespace {

TEST(MomentOf, ReadsIsoTimesOnTheHour) {
  EXPECT_EQ(moment_of("2023-07-05"), (Moment{2023, 7, 5, 0}));
  EXPECT_EQ(moment_of("2023-07-05T14:00"), (Moment{2023, 7, 5, 14}));
  EXPECT_EQ(moment_of("2024-02-29 23:00:00"), (Moment{2024, 2, 29, 23}));
}

TEST(MomentOf, RefusesOtherTimes) {
  for (const char* text : {"05.07.2023", "2023-7-5", "2023-02-29", "2023-13-01", "2023-07-05T24:00", "2023-07-05T14:30",
                           "2023-07-05T14:00Z", "2023-07-05T14:00+02:00", "2023-07-05T14", "2023-07-05x14:00", ""}) {
    EXPECT_FALSE(moment_of(text)) << text;
  }
}

TEST(Moments, CountHoursBothWays) {
  EXPECT_EQ(hours_since_epoch({1970, 1, 2, 3}), 27);
  for (const Moment& moment : {Moment{2023, 12, 31, 23}, Moment{1969, 12, 31, 23}, Moment{1960, 2, 29, 0}}) {
    EXPECT_EQ(moment_at(hours_since_epoch(moment)), moment);
  }
  EXPECT_EQ(to_text({2023, 7, 5, 4}), "2023-07-05 04:00");
}

TEST(HourOfYear, SkipsTheLeapDay) {
  EXPECT_EQ(hour_of_year({2024, 2, 28, 23}), 24 * 59 - 1);
  EXPECT_FALSE(hour_of_year({2024, 2, 29, 5}));
  EXPECT_EQ(hour_of_year({2024, 3, 1, 0}), 24 * 59);
  EXPECT_EQ(hour_of_year({2024, 12, 31, 23}), 8759);
}

TEST(Bridge, DrawsStraightLinesAlsoRoundTheYear) {
  std::vector<double> values{NAN, 2.0, NAN, NAN, 5.0, NAN};
  bridge(values);
  EXPECT_DOUBLE_EQ(values[2], 3.0);
  EXPECT_DOUBLE_EQ(values[3], 4.0);
  EXPECT_DOUBLE_EQ(values[5], 4.0);
  EXPECT_DOUBLE_EQ(values[0], 3.0);
  std::vector<double> nothing(3, NAN);
  bridge(nothing);
  EXPECT_TRUE(std::isnan(nothing[1]));
}

TEST(GapsOf, FindsRuns) {
  const auto gaps = gaps_of({NAN, 1.0, NAN, NAN, 2.0});
  ASSERT_EQ(gaps.size(), 2U);
  EXPECT_EQ(gaps[0].length(), 1U);
  EXPECT_EQ(gaps[1].first, 2U);
  EXPECT_EQ(gaps[1].length(), 2U);
}

TEST(LinesOf, NamesAFileThatIsNotThere) {
  try {
    (void)lines_of("no/such/weather.csv");
    FAIL() << "read";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().front().where, "no/such/weather.csv");
  }
}

TEST(FileProblems, KeepTwentyAndCountTheRest) {
  FileProblems problems("x.csv");
  for (std::size_t line = 1; line <= 30; ++line) problems.add(line, "air", "bad", "mend");
  try {
    problems.throw_if_any();
    FAIL() << "silent";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 21U);
    EXPECT_EQ(error.problems()[0].where, "x.csv:1: air");
    EXPECT_EQ(error.problems()[20].what, "10 more problems are not shown");
  }
}

}  // namespace
}  // namespace stillheap::weather
