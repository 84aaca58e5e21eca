#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>

#include "core/base/error.hpp"
#include "domain/weather/air.hpp"
#include "domain/weather/evapotranspiration.hpp"
#include "domain/weather/table.hpp"
#include "normals.hpp"

namespace stillheap::weather {
namespace {

using Lines = std::vector<std::string>;
using Row = std::function<std::string(const std::string& time, long step)>;

Lines rows(const std::string& header, const Moment& start, long count, long step_h, const Row& row) {
  Lines lines{header};
  for (long step = 0; step < count; ++step) {
    const std::string time = to_text(moment_at(hours_since_epoch(start) + step * step_h));
    lines.push_back(row(step_h == 24 ? time.substr(0, 10) : time, step));
  }
  return lines;
}

const CsvColumns full{"time", "air", "humidity", "wind", "sun", "rain", "", "", 2.0};

Lines hourly_year() {
  return rows("time,air [degC],humidity [%],wind [m/s],sun [W/m2],rain [mm]", {2023, 1, 1, 0}, 8760, 1,
              [](const std::string& time, long step) {
                const long hour = step % 24;
                return time + "," + std::to_string(10 + hour / 3) + ",60,1.5," + (hour == 12 ? "500" : "0") + ",0.36";
              });
}

class Csv : public testing::Test {
 protected:
  std::filesystem::path write(const Lines& lines) const {
    std::ofstream out(file_, std::ios::binary);
    for (const std::string& line : lines) out << line << "\n";
    return file_;
  }
  void TearDown() override { std::filesystem::remove(file_); }
  std::vector<Problem> problems_of(const Lines& lines, const CsvColumns& columns = full) const {
    try {
      (void)from_csv(write(lines), columns, test_place());
    } catch (const InputError& error) {
      return error.problems();
    }
    ADD_FAILURE() << "accepted";
    return {Problem{}};
  }
  static bool says(const Series& series, const std::string& text) {
    return std::any_of(series.assumptions.begin(), series.assumptions.end(), [&](const Assumption& one) {
      return (one.topic + ": " + one.value).find(text) != std::string::npos;
    });
  }
  std::filesystem::path file_ =
      std::filesystem::path(testing::TempDir()) /
      (std::string("csv_") + testing::UnitTest::GetInstance()->current_test_info()->name() + ".csv");
};

TEST_F(Csv, ReadsAnHourlyYear) {
  const Series series = from_csv(write(hourly_year()), full, test_place());
  ASSERT_EQ(series.hours.size(), 8760U);
  EXPECT_DOUBLE_EQ(series.hours[24UL * 9 + 15].air_c, 15.0);
  EXPECT_DOUBLE_EQ(series.hours[3].humidity, 0.6);
  EXPECT_DOUBLE_EQ(series.hours[3].wind_m_s, 1.5);
  EXPECT_DOUBLE_EQ(series.hours[12].sun_w_m2, 500.0);
  EXPECT_NEAR(series.hours[12].rain_m_s, 1e-7, 1e-20);
  EXPECT_GT(series.hours[12].longwave_w_m2, 200.0);
}

TEST_F(Csv, ConvertsUnitsFromHeaderOrConfiguration) {
  Lines lines = rows("\"when\";T [degF];RH;v;I;P", {2023, 1, 1, 0}, 8760, 1,
                     [](const std::string& time, long) { return time + ";50;0.4;7.2;0.36;0.1"; });
  const CsvColumns columns{"when", "T", "RH [1]", "v [km/h]", "I [MJ/m2]", "P [in]", "", "", 10.0};
  const Series series = from_csv(write(lines), columns, test_place());
  EXPECT_NEAR(series.hours[5].air_c, 10.0, 1e-12);
  EXPECT_DOUBLE_EQ(series.hours[5].humidity, 0.4);
  EXPECT_NEAR(series.hours[5].wind_m_s, wind_at_2m_m_s(2.0, 10.0), 1e-12);
  EXPECT_NEAR(series.hours[5].sun_w_m2, 100.0, 1e-9);
  EXPECT_NEAR(series.hours[5].rain_m_s, 2.54e-3 / 3600.0, 1e-15);
}

TEST_F(Csv, ReadsDailyLowAndHighIntoAWave) {
  const Lines lines = rows("time,low [degC],high [degC],rain [mm]", {2023, 1, 1, 0}, 365, 24,
                           [](const std::string& time, long) { return time + ",8,20,2.4"; });
  const CsvColumns columns{"time", "", "", "", "", "rain", "low", "high", 2.0};
  const Series series = from_csv(write(lines), columns, test_place());
  const auto colder = [](const Hour& a, const Hour& b) { return a.air_c < b.air_c; };
  const auto [low, high] = std::minmax_element(series.hours.begin() + 2400, series.hours.begin() + 2424, colder);
  EXPECT_DOUBLE_EQ(low->air_c, 8.0);
  EXPECT_DOUBLE_EQ(high->air_c, 20.0);
  EXPECT_NEAR(low->humidity, 1.0, 1e-12) << "dew point taken as the lowest temperature";
  EXPECT_DOUBLE_EQ(low->wind_m_s, 2.0);
  EXPECT_NEAR(low->rain_m_s, 2.4e-3 / 86400.0, 1e-18);
  EXPECT_TRUE(says(series, "weather: sun: not in the file"));
  EXPECT_TRUE(says(series, "weather: wind: not in the file"));
}

TEST_F(Csv, ReadsDailyMeansWithSun) {
  const Lines lines = rows("time,air [degC],sun [MJ/m2]", {2023, 1, 1, 0}, 365, 24,
                           [](const std::string& time, long) { return time + ",12,8.64"; });
  const Series series = from_csv(write(lines), {"time", "air", "", "", "sun", "", "", "", 2.0}, test_place());
  double sun = 0.0;
  for (std::size_t hour = 4800; hour < 4824; ++hour) sun += series.hours[hour].sun_w_m2 / 24.0;
  EXPECT_NEAR(sun, 100.0, 1e-9);
  EXPECT_DOUBLE_EQ(series.hours[4806].air_c, 12.0);
  EXPECT_TRUE(says(series, "no course over the day"));
}

TEST_F(Csv, EstimatesSunAndHumidityOfHourlyRowsFromTheDaysRange) {
  const Lines lines = rows("time,air [degC]", {2023, 1, 1, 0}, 8760, 1, [](const std::string& time, long step) {
    return time + "," + std::to_string(step % 24 == 5 ? 4 : 20);
  });
  const Series series = from_csv(write(lines), {"time", "air", "", "", "", "", "", "", 2.0}, test_place());
  double sun_j_m2 = 0.0;
  for (std::size_t hour = 24UL * 171; hour < 24UL * 172; ++hour) sun_j_m2 += series.hours[hour].sun_w_m2 * 3600.0;
  EXPECT_NEAR(sun_j_m2, 0.64 * extraterrestrial_j_m2(test_place().latitude_rad, 172), 1.0);
  EXPECT_NEAR(series.hours[12].humidity, saturation_pressure_pa(4.0) / saturation_pressure_pa(20.0), 1e-12);
}

TEST_F(Csv, PutsAYearThatStartsInJulyInItsPlaceAndDropsTheLeapDay) {
  const Lines lines =
      rows("time,air [degC],sun [W/m2]", {2023, 7, 1, 0}, 400, 24,
           [](const std::string& time, long step) { return time + "," + std::to_string(step % 50) + ",100"; });
  const Series series = from_csv(write(lines), {"time", "air", "", "", "sun", "", "", "", 2.0}, test_place());
  EXPECT_DOUBLE_EQ(series.hours[24UL * 181].air_c, 0.0) << "1 July";
  EXPECT_DOUBLE_EQ(series.hours[0].air_c, 184 % 50) << "1 January";
  EXPECT_DOUBLE_EQ(series.hours[24UL * 59].air_c, 244 % 50) << "1 March, after the leap day";
  EXPECT_TRUE(says(series, "29 February"));
  EXPECT_TRUE(says(series, "34 later rows are not used"));
}

TEST_F(Csv, BridgesAShortGapAndNamesIt) {
  Lines lines = hourly_year();
  lines.erase(lines.begin() + 1 + 30, lines.begin() + 1 + 33);
  const Series series = from_csv(write(lines), full, test_place());
  EXPECT_NEAR(series.hours[30].air_c, 11.5, 1e-9);
  EXPECT_TRUE(says(series, "01-02 06:00 to 01-02 08:00 bridged"));
}

TEST_F(Csv, RefusesALongGapAndNamesIt) {
  Lines lines = hourly_year();
  lines.resize(1 + 8000);
  const auto problems = problems_of(lines);
  ASSERT_EQ(problems.size(), 5U) << "one a column";
  EXPECT_EQ(problems[0].where, file_.string() + ": air [degC]");
  EXPECT_EQ(problems[0].what, "is missing from 11-30 08:00 to 12-31 23:00 (760 hours)");
}

TEST_F(Csv, RefusesTimesTwiceBackwardsOrOffTheStep) {
  Lines lines = hourly_year();
  lines.insert(lines.begin() + 5, lines[4]);
  EXPECT_EQ(problems_of(lines)[0].where, file_.string() + ":6: time");
  EXPECT_EQ(problems_of(lines)[0].what, "2023-01-01 03:00 stands already in line 5");
  lines = hourly_year();
  std::swap(lines[4], lines[5]);
  EXPECT_EQ(problems_of(lines)[0].what, "2023-01-01 03:00 comes after a later time");
  lines = rows("time,air [degC],sun [W/m2]", {2023, 1, 1, 0}, 200, 6,
               [](const std::string& time, long) { return time + ",1,1"; });
  EXPECT_EQ(problems_of(lines, {"time", "air", "", "", "sun", "", "", "", 2.0})[0].what, "rows are 6 h apart");
}

TEST_F(Csv, RefusesTimesAndNumbersItCannotRead) {
  Lines lines = hourly_year();
  lines[10] = "01.01.2023 09:00,5,60,1,0,0";
  lines[11] = "2023-01-01 10:00,5.0 C,60,1,0,0";
  const auto problems = problems_of(lines);
  ASSERT_EQ(problems.size(), 2U);
  EXPECT_EQ(problems[0].what, "\"01.01.2023 09:00\" is not a time we read");
  EXPECT_EQ(problems[1].where, file_.string() + ":12: air [degC]");
}

TEST_F(Csv, RefusesValuesOutOfRangeInTheirOwnUnit) {
  Lines lines = hourly_year();
  lines[7] = "2023-01-01 06:00,12,66,1.5,0,900";
  lines[8] = "2023-01-01 07:00,120,130,1.5,0,0";
  const auto problems = problems_of(lines);
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].what, "900 mm cannot be");
  EXPECT_EQ(problems[1].what, "120 degC cannot be");
  EXPECT_EQ(problems[2].what, "130 % cannot be");
  EXPECT_EQ(problems[2].mend, "allowed are 0 to 110 %");
}

TEST_F(Csv, RefusesMissingColumnsAndUnits) {
  CsvColumns columns = full;
  columns.air = "temperature";
  EXPECT_EQ(problems_of(hourly_year(), columns)[0].what, "no column \"temperature\"");
  columns = full;
  columns.wind = "wind [furlongs]";
  EXPECT_EQ(problems_of(hourly_year(), columns)[0].what, "unit \"furlongs\" is not known");
  Lines lines = hourly_year();
  lines[0] = "time,air,humidity [%],wind [m/s],sun [W/m2],rain [mm]";
  EXPECT_EQ(problems_of(lines)[0].what, "has no unit");
  columns = full;
  columns.air = "";
  EXPECT_EQ(problems_of(hourly_year(), columns)[0].what, "hourly rows without a column for air");
  columns = full;
  columns.time = "";
  EXPECT_EQ(problems_of(hourly_year(), columns)[0].where, file_.string() + ":1: time");
}

TEST_F(Csv, RefusesLowAboveHighAndDailyMeansWithoutSun) {
  Lines lines = rows("time,low [degC],high [degC]", {2023, 1, 1, 0}, 365, 24,
                     [](const std::string& time, long step) { return time + (step == 40 ? ",20,8" : ",8,20"); });
  EXPECT_EQ(problems_of(lines, {"time", "", "", "", "", "", "low", "high", 2.0})[0].what,
            "low is above high on day 10 of month 2");
  lines = rows("time,air [degC]", {2023, 1, 1, 0}, 365, 24, [](const std::string& time, long) { return time + ",9"; });
  EXPECT_EQ(problems_of(lines, {"time", "air", "", "", "", "", "", "", 2.0})[0].what,
            "daily means of temperature without sun");
}

TEST_F(Csv, RefusesEmptyFilesAndOpenQuotes) {
  EXPECT_EQ(problems_of({})[0].what, "is empty");
  EXPECT_EQ(problems_of({"time,air [degC],humidity [%],wind [m/s],sun [W/m2],rain [mm]"})[0].what, "holds 0 rows");
  Lines lines = hourly_year();
  lines[3] = "\"2023-01-01 02:00,10,60,1,0,0";
  EXPECT_EQ(problems_of(lines)[0].where, file_.string() + ":4");
}

}  // namespace
}  // namespace stillheap::weather
