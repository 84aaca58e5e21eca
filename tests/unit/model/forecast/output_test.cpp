#include "model/forecast/output.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <locale>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "output_folder.hpp"

namespace stillheap::forecast {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;
using Output = OutputFolder;

// ---- JSON

TEST(ForecastJson, ComesBackAsWrittenThroughText) {
  Result result = small_result();
  result.summary.peak_temperature_c = {63.1, 58.4, 1.0 / 3.0 + 66.0};
  result.summary.peak_place = {{0.1, -0.2}, 0.9};
  result.summary.salt_concentration_ratio = {1.4, 1.2, 1.7};
  result.summary.conservation.energy = 3.5e-9;
  result.evaporated_kg_s[6] = 1.25e-4;
  result.solved = "the whole plan";
  result.cells_full = 12000;
  result.steps = 4321;
  result.members = 16;
  result.assumptions = {{"model: \"vapour\"", "saturated, 20 \u00b0C", "chosen"}};
  const Json json = to_json(result);
  const Json back = Json::parse(json.dump());
  EXPECT_EQ(back, json);
  EXPECT_EQ(back["schema_version"], forecast_schema_version);
  EXPECT_EQ(back["summary"]["peak_temperature_c"]["middle"].get<double>(), 63.1);
  EXPECT_EQ(back["summary"]["peak_temperature_c"]["low"].get<double>(), 58.4);
  EXPECT_EQ(back["summary"]["peak_temperature_c"]["high"].get<double>(), 1.0 / 3.0 + 66.0);
  EXPECT_EQ(back["summary"]["peak_place"]["y_m"].get<double>(), -0.2);
  EXPECT_EQ(back["summary"]["salt_concentration_ratio"]["high"].get<double>(), 1.7);
  EXPECT_EQ(back["conservation_error"]["energy"].get<double>(), 3.5e-9);
  ASSERT_EQ(back["monthly_means"].size(), 12U);
  EXPECT_EQ(back["monthly_means"][6]["month"], 7);
  EXPECT_EQ(back["monthly_means"][6]["evaporated_net_kg_s"]["middle"].get<double>(), 1.25e-4);
  EXPECT_EQ(back["solved"]["what"], "the whole plan");
  EXPECT_EQ(back["solved"]["cells_full"], 12000);
  EXPECT_EQ(back["solved"]["steps"], 4321);
  EXPECT_EQ(back["solved"]["members"], 16);
  EXPECT_TRUE(back["stopped"].is_null());
  ASSERT_EQ(back["assumptions"].size(), 1U);
  EXPECT_EQ(back["assumptions"][0]["topic"], "model: \"vapour\"");
  EXPECT_EQ(back["assumptions"][0]["value"], "saturated, 20 \u00b0C");
}

TEST(ForecastJson, WritesNullForADayThatDidNotHappen) {
  Result result;
  Json day = to_json(result)["summary"]["cool_day"];
  for (const char* part : {"middle", "low", "high"}) {
    ASSERT_TRUE(day.contains(part)) << part;
    EXPECT_TRUE(day[part].is_null()) << part;
  }
  result.summary.cool_day = 140.0;
  result.summary.cool_day_high = 155.5;
  day = to_json(result)["summary"]["cool_day"];
  EXPECT_EQ(day["middle"].get<double>(), 140.0);
  EXPECT_TRUE(day["low"].is_null());
  EXPECT_EQ(day["high"].get<double>(), 155.5);
}

TEST(ForecastJson, SaysWhyTheRunStopped) {
  Result result = small_result();
  result.stopped = "the heap froze solid";
  EXPECT_EQ(to_json(result)["stopped"], "the heap froze solid");
}

TEST(ForecastJson, NeverHoldsANumberThatIsNotFinite) {
  Result result;
  result.summary.peak_day = {std::nan(""), std::numeric_limits<double>::infinity(), 3.0};
  result.summary.water_made_kg.low = -std::numeric_limits<double>::infinity();
  result.salt_out_kg_s[0] = std::nan("");
  const Json json = to_json(result);
  const Json flat = json.flatten();  // holds NaN as a number if there is one; a dump would hide it as null
  for (const auto& [key, value] : flat.items())
    EXPECT_TRUE(!value.is_number_float() || std::isfinite(value.get<double>())) << key;
  EXPECT_TRUE(json["summary"]["peak_day"]["middle"].is_null());
  EXPECT_TRUE(json["summary"]["peak_day"]["low"].is_null());
  EXPECT_EQ(json["summary"]["peak_day"]["high"].get<double>(), 3.0);
  EXPECT_TRUE(json["summary"]["water_made_kg"]["low"].is_null());
  EXPECT_TRUE(json["monthly_means"][0]["salt_out_kg_s"]["middle"].is_null());
}

TEST_F(Output, JsonFileHoldsTheSameAndNoBrokenText) {
  Result result = small_result();
  result.assumptions = {{"name", "caf\xe9", "chosen"}};  // Latin-1, no UTF-8
  write_forecast_json(result, folder / "forecast.json");
  const Json back = Json::parse(read(folder / "forecast.json"));
  EXPECT_EQ(back["assumptions"][0]["value"], "caf\ufffd");
  EXPECT_EQ(back["summary"], to_json(result)["summary"]);
}

// ---- CSV

/// Values between commas; the files hold no quotes.
std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> fields(1);
  for (const char c : line) {
    if (c == ',') {
      fields.emplace_back();
    } else {
      fields.back() += c;
    }
  }
  return fields;
}

/// Lines of a file that must end every one of them with CR LF.
std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  for (std::size_t end = text.find("\r\n"); end != std::string::npos; end = text.find("\r\n", at)) {
    lines.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  EXPECT_EQ(at, text.size()) << "the last line is not ended";
  return lines;
}

/// A field by its column's name.
std::string field(const std::vector<std::string>& lines, std::size_t row, const std::string& name) {
  const std::vector<std::string> names = split(lines.at(0));
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return "no column " + name;
  return split(lines.at(row)).at(static_cast<std::size_t>(found - names.begin()));
}

struct CommaNumbers : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST_F(Output, CsvHoldsALineARowWithPointsWhateverTheLocale) {
  Result result;
  HistoryRow row;
  row.day = 12345.25;
  row.core_c = 61.23456789;
  row.lowest_oxygen = 0.0625;
  row.uptake_kg_s = 1.5e-7;
  row.sprinkled_kg_day = 12.0;
  result.history = result.history_low = result.history_high = {HistoryRow{}, row};
  result.history_low[1].core_c = -0.5;
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
  write_history_csv(result, folder / "history.csv");
  std::locale::global(before);
  const std::vector<std::string> lines = lines_of(read(folder / "history.csv"));
  ASSERT_EQ(lines.size(), 3U);
  for (const std::string& line : lines) EXPECT_EQ(split(line).size(), split(lines[0]).size());
  EXPECT_EQ(split(lines[0]).size(), 3 * sizeof(HistoryRow) / sizeof(double) - 4)
      << "a column for every number of a row, and two for its band but for day and outside air";
  EXPECT_EQ(field(lines, 1, "core_degC"), "0");
  EXPECT_EQ(field(lines, 2, "day"), "12345.25");
  EXPECT_EQ(field(lines, 2, "core_degC"), "61.2345679");
  EXPECT_EQ(field(lines, 2, "core_low_degC"), "-0.5");
  EXPECT_EQ(field(lines, 2, "lowest_oxygen_share"), "0.0625");
  EXPECT_EQ(std::stod(field(lines, 2, "oxygen_uptake_kg_s")), 1.5e-7);
  EXPECT_EQ(field(lines, 2, "sprinkled_kg_day"), "12");
}

TEST_F(Output, CsvLeavesTheFieldEmptyWhereThereIsNoNumber) {
  Result result;
  result.history.resize(1);
  result.history[0].height_m = std::nan("");
  write_history_csv(result, folder / "history.csv");
  const std::vector<std::string> lines = lines_of(read(folder / "history.csv"));
  EXPECT_EQ(field(lines, 1, "height_m"), "");
  EXPECT_EQ(field(lines, 1, "dry_mass_kg"), "0");
}

// ---- files

TEST_F(Output, LeavesNoPartAndReplacesAnOlderFile) {
  std::ofstream(folder / "history.csv") << "old";
  write_history_csv({}, folder / "history.csv");
  EXPECT_EQ(lines_of(read(folder / "history.csv")).size(), 1U);
  write_fields(small_result(), folder);
  for (const auto& entry : fs::directory_iterator(folder)) EXPECT_NE(entry.path().extension(), ".part");
}

/// The one problem a call throws, or an empty one.
template <class Call>
Problem run_problem(Call&& call) {
  try {
    call();
  } catch (const RunError& error) {
    return error.problems().at(0);
  }
  return {};
}

TEST_F(Output, SaysWhichFileCannotBeWrittenAndWhy) {
  const fs::path lost = folder / "missing" / "history.csv";
  const Problem no_folder = run_problem([&] { write_history_csv({}, lost); });
  EXPECT_EQ(no_folder.where, lost.string());
  EXPECT_NE(no_folder.what.find("No such file or directory"), std::string::npos) << no_folder.what;
  EXPECT_FALSE(no_folder.mend.empty());

  const fs::path taken = folder / "forecast.json";  // a folder stands where the file should go
  fs::create_directories(taken / "inside");
  const Problem is_folder = run_problem([&] { write_forecast_json({}, taken); });
  EXPECT_EQ(is_folder.where, taken.string());
  EXPECT_FALSE(fs::exists(folder / "forecast.json.part"));

  std::ofstream(folder / "plain") << "a file";
  const Problem not_folder = run_problem([&] { write_fields({}, folder / "plain"); });
  EXPECT_EQ(not_folder.where, (folder / "plain").string());
}

}  // namespace
}  // namespace stillheap::forecast
