#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <numbers>

#include "core/base/error.hpp"
#include "domain/weather/calendar.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "domain/weather/series.hpp"

namespace stillheap::weather {
namespace {

/// An invented year: what one hour (0..8759, the hour that starts there) reads.
struct Reading {
  std::string air = "11.0", dew = "5.0", humidity = "66", pressure = "98000", infrared = "310", global = "0";
  std::string wind = "3.0", rain = "0.0";
};
using Story = std::function<Reading(int)>;

std::string record(int month, int day, int hour, const Reading& r) {
  return "2001," + std::to_string(month) + "," + std::to_string(day) + "," + std::to_string(hour) + ",60,?9?9," +
         r.air + "," + r.dew + "," + r.humidity + "," + r.pressure + ",0,0," + r.infrared + "," + r.global +
         ",0,0,0,0,0,0,180," + r.wind + ",5,5,20,77777,9,999999999,100,0.1,0,88,0.2," + r.rain + ",1";
}

std::vector<std::string> year(const Story& story) {
  std::vector<std::string> lines{"LOCATION,Invented Valley,-,-,made up,000000,47.5,8.5,1.0,420.0",
                                 "DESIGN CONDITIONS,0",
                                 "TYPICAL/EXTREME PERIODS,0",
                                 "GROUND TEMPERATURES,0",
                                 "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
                                 "COMMENTS 1,\"invented, for a test\"",
                                 "COMMENTS 2,",
                                 "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31"};
  for (int hour = 0; hour < 8760; ++hour) {
    const int month = month_of(hour / 24);
    lines.push_back(record(month + 1, hour / 24 - first_day_of(month) + 1, hour % 24 + 1, story(hour)));
  }
  return lines;
}

Reading plain(int) { return {}; }

class Epw : public testing::Test {
 protected:
  std::filesystem::path write(const std::vector<std::string>& lines, const char* end = "\n") const {
    std::ofstream out(file_, std::ios::binary);
    for (const std::string& line : lines) out << line << end;
    return file_;
  }
  void TearDown() override { std::filesystem::remove(file_); }
  std::vector<Problem> problems_of(const std::vector<std::string>& lines) const {
    try {
      (void)from_epw(write(lines));
    } catch (const InputError& error) {
      return error.problems();
    }
    ADD_FAILURE() << "accepted";
    return {Problem{}};
  }
  std::filesystem::path file_ =
      std::filesystem::path(testing::TempDir()) /
      (std::string("epw_") + testing::UnitTest::GetInstance()->current_test_info()->name() + ".epw");
};

TEST_F(Epw, GivesPlaceAndAYearOfHours) {
  const Series series = from_epw(write(year(plain), "\r\n"));
  ASSERT_EQ(series.hours.size(), 8760U);
  EXPECT_NEAR(series.place.latitude_rad, 47.5 * std::numbers::pi / 180.0, 1e-12);
  EXPECT_NEAR(series.place.longitude_rad, 8.5 * std::numbers::pi / 180.0, 1e-12);
  EXPECT_DOUBLE_EQ(series.place.elevation_m, 420.0);
  EXPECT_DOUBLE_EQ(series.hours[77].air_c, 11.0);
  EXPECT_DOUBLE_EQ(series.hours[77].humidity, 0.66);
  EXPECT_DOUBLE_EQ(series.hours[77].pressure_pa, 98000.0);
  EXPECT_DOUBLE_EQ(series.hours[77].longwave_w_m2, 310.0);
}

TEST_F(Epw, BringsTheWindDownToTwoMetres) {
  const Series series = from_epw(write(year(plain)));
  EXPECT_NEAR(series.hours[5].wind_m_s, 3.0 * 0.748, 2e-3);
}

TEST_F(Epw, PutsValuesOnTheClockAtTheEndOfTheirHour) {
  const Series series = from_epw(write(year([](int hour) {
    Reading reading;
    reading.air = std::to_string(hour % 24 + 1);
    return reading;
  })));
  EXPECT_DOUBLE_EQ(series.hours[1].air_c, 1.0);
  EXPECT_DOUBLE_EQ(series.hours[23].air_c, 23.0);
  EXPECT_DOUBLE_EQ(series.hours[0].air_c, 24.0) << "the last record of the year is its first moment";
}

TEST_F(Epw, KeepsTheYearsSunAndRain) {
  const Series series = from_epw(write(year([](int hour) {
    Reading reading;
    if (hour % 24 == 12) reading.global = "600";
    if (hour == 100) reading.rain = "7.5";
    return reading;
  })));
  double sun_j_m2 = 0.0;
  double rain_m = 0.0;
  for (const Hour& hour : series.hours) {
    sun_j_m2 += hour.sun_w_m2 * 3600.0;
    rain_m += hour.rain_m_s * 3600.0;
  }
  EXPECT_NEAR(sun_j_m2, 365 * 600.0 * 3600.0, 1.0);
  EXPECT_NEAR(rain_m, 7.5e-3, 1e-12);
  EXPECT_DOUBLE_EQ(series.hours[12].sun_w_m2, 300.0);
  EXPECT_DOUBLE_EQ(series.hours[13].sun_w_m2, 300.0);
}

TEST_F(Epw, BridgesShortGapsAndSaysSo) {
  const Series series = from_epw(write(year([](int hour) {
    Reading reading;
    reading.air = hour < 50 ? "10" : "16";
    if (hour >= 50 && hour < 55) reading.air = "99.9";
    return reading;
  })));
  EXPECT_NEAR(series.hours[53].air_c, 13.0, 1e-9);
  bool said = false;
  for (const Assumption& one : series.assumptions) said = said || one.value.starts_with("5 missing hours bridged");
  EXPECT_TRUE(said);
}

TEST_F(Epw, RefusesALongGap) {
  const auto problems = problems_of(year([](int hour) {
    Reading reading;
    if (hour >= 48 && hour < 60) reading.wind = "999";
    return reading;
  }));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_NE(problems[0].where.find("field 22, wind speed"), std::string::npos);
  EXPECT_EQ(problems[0].what, "is missing for 12 hours from month 1, day 3, hour 1");
}

TEST_F(Epw, FillsHumidityLongwavePressureAndRain) {
  const Series series = from_epw(write(year([](int) {
    Reading reading;
    reading.humidity = "999";
    reading.infrared = "9999";
    reading.pressure = "999999";
    reading.rain = "999";
    return reading;
  })));
  EXPECT_NEAR(series.hours[9].humidity, 0.665, 0.005);
  EXPECT_GT(series.hours[9].longwave_w_m2, 220.0);
  EXPECT_LT(series.hours[9].longwave_w_m2, 400.0);
  EXPECT_NEAR(series.hours[9].pressure_pa, 96380.0, 50.0);
  EXPECT_EQ(series.hours[9].rain_m_s, 0.0);
  EXPECT_GE(series.assumptions.size(), 5U);
}

TEST_F(Epw, LeavesOutTheLeapDay) {
  std::vector<std::string> lines = year(plain);
  std::vector<std::string> leap;
  for (int hour = 1; hour <= 24; ++hour) leap.push_back(record(2, 29, hour, {}));
  lines.insert(lines.begin() + 8 + 24L * 59, leap.begin(), leap.end());
  const Series series = from_epw(write(lines));
  EXPECT_EQ(series.hours.size(), 8760U);
}

TEST_F(Epw, NamesLineFieldValueAndWhatIsAllowed) {
  const auto problems = problems_of(year([](int hour) {
    Reading reading;
    if (hour == 6) reading.air = "88";
    if (hour == 7) reading.global = "-4";
    if (hour == 8) reading.wind = "calm";
    return reading;
  }));
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].where, file_.string() + ":15: field 7, dry bulb temperature");
  EXPECT_EQ(problems[0].what, "\"88\" cannot be");
  EXPECT_EQ(problems[0].mend, "allowed are -70 to 70 degC, 99.9 for missing");
  EXPECT_EQ(problems[1].where, file_.string() + ":16: field 14, global horizontal radiation");
  EXPECT_EQ(problems[2].what, "\"calm\" cannot be");
}

TEST_F(Epw, RefusesAHoleInTheHours) {
  std::vector<std::string> lines = year(plain);
  lines.erase(lines.begin() + 8 + 30);
  const auto problems = problems_of(lines);
  EXPECT_EQ(problems[0].where, file_.string() + ":39: fields 2 to 4, month, day, hour");
  EXPECT_EQ(problems[0].mend, "expected month 1, day 2, hour 7");
}

TEST_F(Epw, RefusesPartOfAYear) {
  std::vector<std::string> lines = year(plain);
  lines.resize(8 + 1000);
  const auto problems = problems_of(lines);
  EXPECT_EQ(problems[0].what, "holds 1000 hours, the last before month 2, day 11, hour 17");
}

TEST_F(Epw, RefusesMoreThanAYear) {
  std::vector<std::string> lines = year(plain);
  lines.push_back(record(1, 1, 1, {}));
  EXPECT_EQ(problems_of(lines)[0].mend, "the file must end after 31 December, hour 24");
}

TEST_F(Epw, RefusesSubHourlyRecords) {
  std::vector<std::string> lines = year(plain);
  lines[7] = "DATA PERIODS,1,4,Data,Sunday, 1/ 1,12/31";
  EXPECT_EQ(problems_of(lines)[0].what, "1 periods, 4 records an hour");
}

TEST_F(Epw, RefusesAnotherKindOfFile) {
  EXPECT_EQ(problems_of({"time,air", "2023-01-01,5"})[0].what, "does not start with LOCATION");
  std::vector<std::string> lines = year(plain);
  lines[0] = "LOCATION,Invented Valley,-,-,made up,000000,north,8.5,1.0,420.0";
  EXPECT_EQ(problems_of(lines)[0].where, file_.string() + ":1: LOCATION, field 7, latitude");
}

}  // namespace
}  // namespace stillheap::weather
