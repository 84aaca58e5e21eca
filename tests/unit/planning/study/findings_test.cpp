#include "planning/study/findings.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "planning/study/columns.hpp"
#include "support.hpp"

namespace stillheap::study {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

CaseRow run_with(int number, double path_m, double hot, double water_kg_m3, double cool_day) {
  CaseRow run{number, State::done, "", "ring", {"\"1 m\""}, {}};
  run.numbers.assign(measures().size(), {0.0, 0.0, 0.0});
  const auto set = [&](const char* name, double value) { run.numbers[measure_index(name)] = {value, value, value}; };
  set("longest_air_path_m", path_m);
  set("share_3_days_above_55", hot);
  set("water_put_on_kg_m3", water_kg_m3);
  set("cool_day", cool_day);
  return run;
}

TEST(Front, HoldsWhatNoOtherBeatsInAllGoals) {
  const std::vector<CaseRow> runs{run_with(1, 0.2, 0.5, 300, 100), run_with(2, 0.3, 0.4, 310, 110),  // beaten by 1
                                  run_with(3, 0.4, 0.9, 300, 100), run_with(4, 0.1, 0.1, 100, unknown)};
  EXPECT_EQ(front_of(runs), (std::vector<std::size_t>{2, 0, 3}));
}

TEST(Front, CountsAHeapThatDoesNotCoolAsTheWorstInThat) {
  const std::vector<CaseRow> runs{run_with(1, 0.2, 0.5, 300, unknown), run_with(2, 0.2, 0.5, 300, 400)};
  EXPECT_EQ(front_of(runs), (std::vector<std::size_t>{1}));
}

TEST(Front, KeepsEqualsAndLeavesOutWhatIsNotDone) {
  std::vector<CaseRow> runs{run_with(1, 0.2, 0.5, 300, 100), run_with(2, 0.2, 0.5, 300, 100),
                            run_with(3, 0.1, 0.9, 100, 50)};
  runs[2].state = State::failed;
  EXPECT_EQ(front_of(runs), (std::vector<std::size_t>{0, 1}));
}

TEST(CaseResult, KeepsEveryBit) {
  const test::Folder folder;
  CaseResult result{7, State::done, "", {{"ring \"A\"", {}}}, "host-1", 1.5, 3.0};
  for (std::size_t m = 0; m < measures().size(); ++m)
    result.kinds[0].numbers.push_back({1.0 / (3.0 + static_cast<double>(m)), unknown, -0.1});
  const CaseResult again = read_case_result(folder.write("7.json", to_text(result)));
  ASSERT_EQ(again.kinds.size(), 1U);
  EXPECT_EQ(again.kinds[0].vessel, "ring \"A\"");
  for (std::size_t m = 0; m < measures().size(); ++m) {
    EXPECT_EQ(again.kinds[0].numbers[m].middle, result.kinds[0].numbers[m].middle);
    EXPECT_TRUE(std::isnan(again.kinds[0].numbers[m].low));
  }
  EXPECT_THROW((void)read_case_result(folder.write("8.json", "{\"case\": 8")), RunError);
}

TEST(Columns, HoldInputsInSiAndBandsWhereThereAreSome) {
  const test::Folder folder;
  Findings findings;
  findings.study = read_study(test::write_study(folder,
                                                "[vary.\"vessel.panel_length\"]\nlist = [\"12 ft 6 in\", \"4 m\"]\n"
                                                "[vary.\"vessel.wall\"]\nlist = [\"open\"]\n"));
  findings.rows = {run_with(1, 0.2, 0.5, 300, 100), run_with(2, 0.3, 0.4, 310, unknown)};
  findings.rows[0].values = {"\"12 ft 6 in\"", "\"open\""};
  findings.rows[1].values = {"\"4 m\"", "\"open\""};
  findings.front = front_of(findings.rows);
  const auto named = [](const std::vector<Column>& columns, const std::string& name) {
    return std::find_if(columns.begin(), columns.end(), [&](const Column& one) { return one.name == name; });
  };
  std::vector<Column> columns = columns_of(findings);
  EXPECT_NEAR(named(columns, "vessel.panel_length")->numbers[0], 12.5 * 0.3048, 1e-12);
  EXPECT_EQ(named(columns, "vessel.panel_length")->unit, "m");
  EXPECT_TRUE(named(columns, "vessel.wall")->is_text);
  EXPECT_EQ(named(columns, "unbeaten")->numbers, (std::vector<double>{1.0, 0.0}));
  EXPECT_EQ(named(columns, "cool_day_low"), columns.end());
  findings.rows[0].numbers[measure_index("cool_day")].low = 90.0;
  columns = columns_of(findings);
  ASSERT_NE(named(columns, "cool_day_low"), columns.end());
  EXPECT_EQ(named(columns, "cool_day_low")->numbers[0], 90.0);
  const std::string csv = runs_csv(columns);
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 3);
}

}  // namespace
}  // namespace stillheap::study
