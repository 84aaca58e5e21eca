#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <fstream>

#include "../site/support.hpp"
#include "core/base/error.hpp"
#include "planning/plan/check_step.hpp"
#include "planning/plan/plan.hpp"

/// `check` and `plan` give one verdict: whatever a plan refuses before its forecast, checking refuses, with file and
/// line.
namespace stillheap::plan {
namespace {

namespace fs = std::filesystem;

struct Bad {
  const char* name;
  const char* key;                                           ///< that the refusal names
  std::vector<std::pair<const char*, const char*>> changes;  ///< of tests/data/site/good.toml: what, by what
};

struct Reached {};

/// Stops where the first forecast would begin.
forecast::Result stop_here(const forecast::Request&, const Progress&) { throw Reached{}; }

/// The refusals of a plan; empty when it got as far as a forecast.
std::vector<Problem> refusals_of_plan(const site::Site& site) {
  try {
    (void)make_plan(site, {}, stop_here);
  } catch (const Reached&) {
    return {};
  } catch (const Error& error) {
    return error.problems();
  }
  return {};
}

std::vector<Problem> refusals_of_check(const site::Site& site) {
  try {
    check_plan(site);
  } catch (const InputError& error) {
    return error.problems();
  }
  return {};
}

std::string good() { return site::test::read_text(fs::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml"); }

class OneVerdict : public testing::TestWithParam<Bad> {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("verdict-" + std::string(GetParam().name));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  site::Site changed() {
    std::string text = good();
    for (const auto& [from, to] : GetParam().changes) {
      const std::size_t at = text.find(from);
      EXPECT_NE(at, std::string::npos) << from;
      if (at != std::string::npos) text.replace(at, std::string(from).size(), to);
    }
    std::ofstream(folder_ / "site.toml") << text;
    return site::read_site(folder_ / "site.toml");
  }
  fs::path folder_;
};

TEST_P(OneVerdict, OfCheckAndPlan) {
  const site::Site site = changed();
  const std::vector<Problem> checked = refusals_of_check(site);
  const std::vector<Problem> planned = refusals_of_plan(site);
  ASSERT_FALSE(checked.empty()) << "check finds nothing";
  ASSERT_EQ(checked.size(), planned.size());
  bool named = false;
  for (std::size_t i = 0; i < checked.size(); ++i) {
    EXPECT_EQ(to_line(checked[i]), to_line(planned[i]));
    EXPECT_TRUE(checked[i].where.starts_with((folder_ / "site.toml").string() + ":")) << to_line(checked[i]);
    named = named || checked[i].where.find(GetParam().key) != std::string::npos;
  }
  EXPECT_TRUE(named) << to_line(checked.front());
}

constexpr const char* fixed = R"(shares = { chips = "40 %", own = "60 %" })";
const Bad table[] = {
    {"CarbonToNitrogenOutOfReach", "blend", {{fixed, "carbon_to_nitrogen = [5, 6]"}}},
    {"StockTooSmall", "blend", {{fixed, ""}, {"stock = \"10 m3\"", "stock = \"0.01 m3\""}, {"\"4 t\"", "\"60 kg\""}}},
    {"NoAirInTheBlend",
     "blend",
     {{fixed, "shares = { own = \"100 %\" }\nmoisture = [\"60 %\", \"85 %\"]"}, {"= \"65 %\"", "= \"85 %\""}}},
    {"SunInThePolarNight", "weather.sun", {{"latitude = \"47 deg\"", "latitude = \"78 deg\""}}},
    {"AirWithoutVapour", "weather.humidity", {{"months = [83,", "months = [0.5,"}}},
    {"PressedWithoutAir", "blend", {{"people = 2", "people = 2\nsettled_density = \"1200 kg/m3\""}}},
    {"LooserThanInThePail", "fill.settled_density", {{"people = 2", "people = 2\nsettled_density = \"60 kg/m3\""}}},
    {"RoughLine",
     "water.line",
     {{"inside_diameter = \"13 mm\"", "inside_diameter = \"2 mm\"\nroughness = \"0.5 mm\""}}},
};
INSTANTIATE_TEST_SUITE_P(Table, OneVerdict, testing::ValuesIn(table),
                         [](const auto& one) { return std::string(one.param.name); });

/// A site whose weather is a file of hourly rows: 14 months, one cell changed.
std::vector<Problem> refusals_with(const site::test::Folder& folder, const std::string& head, const std::string& odd,
                                   bool gap) {
  std::string rows = head + "\n";
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  for (int month = 0; month < 12; ++month) {
    for (int hour = 0; hour < 24 * days[static_cast<std::size_t>(month)]; ++hour) {
      if (gap && month == 4 && hour > 24 && hour < 200) continue;
      char time[40];
      std::snprintf(time, sizeof time, "2025-%02d-%02dT%02d:00", month + 1, hour / 24 + 1, hour % 24);
      const bool changed = month == 6 && hour == 36 && !odd.empty();
      rows += std::string(time) + ',' + (changed ? odd : "12") + ",70,2,100,0\n";
    }
  }
  (void)folder.write("weather.csv", rows);
  std::string text = good();
  const std::size_t from = text.find("low = {");
  const std::size_t to = text.find("[[feedstock]]");
  text.replace(from, to - from, R"([weather.csv]
file = "weather.csv"
time = "time"
air = "air [degC]"
humidity = "rh [%]"
wind = "wind [m/s]"
sun = "sun [W/m2]"
rain = "rain [mm]"

)");
  const site::Site site = site::read_site(folder.write("site.toml", text));
  const std::vector<Problem> checked = refusals_of_check(site);
  const std::vector<Problem> planned = refusals_of_plan(site);
  EXPECT_EQ(checked.size(), planned.size());
  for (const Problem& one : checked)
    EXPECT_TRUE(one.where.starts_with((folder.path() / "weather.csv").string() + ":")) << to_line(one);
  return checked;
}

TEST(OneVerdict, OnWeatherFiles) {
  const site::test::Folder folder;
  const std::string head = "time,air [degC],rh,wind,sun,rain";
  EXPECT_TRUE(refusals_with(folder, head, "", false).empty());
  EXPECT_FALSE(refusals_with(folder, head, "200", false).empty()) << "200 degC";
  EXPECT_FALSE(refusals_with(folder, head, "", true).empty()) << "a week is missing";
}

TEST(OneVerdict, RefusesAColumnWhoseHeaderNamesAnotherUnitThanTheKey) {
  const site::test::Folder folder;
  for (const char* air : {"air [degF]", "air [K]"}) {
    const auto refused = refusals_with(folder, std::string("time,") + air + ",rh,wind,sun,rain", "", false);
    ASSERT_FALSE(refused.empty()) << air;
    EXPECT_NE(to_line(refused.front()).find("degC"), std::string::npos) << to_line(refused.front());
  }
  EXPECT_TRUE(refusals_with(folder, "time,air [C],rh [%],wind,sun,rain", "", false).empty()) << "two names of one unit";
}

TEST(OneVerdict, OnAGoodSiteIsGood) {
  const site::Site site = site::read_site(fs::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml");
  EXPECT_TRUE(refusals_of_check(site).empty());
  EXPECT_TRUE(refusals_of_plan(site).empty());
}

}  // namespace
}  // namespace stillheap::plan
