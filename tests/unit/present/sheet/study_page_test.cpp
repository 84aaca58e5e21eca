#include "present/sheet/study_page.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <limits>

#include "planning/site/setting.hpp"
#include "present/draw/scatter.hpp"

/// The trade-off sheet of a study, with findings made here: no stage computes them.
namespace stillheap::sheet {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

bool mentions(const std::vector<PlacedText>& texts, const std::string& words) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const PlacedText& one) { return one.text.find(words) != std::string::npos; });
}

study::Axis axis(const std::string& key, std::vector<std::string> values) {
  study::Axis axis;
  axis.key = key;
  axis.row = site::find_named_key(key).key;
  axis.values = std::move(values);
  return axis;
}

/// Runs along a curve: wider heaps get hotter, stay warm longer and have longer air paths. Every fifth does not cool.
study::Findings findings_for(UnitSystem units, int runs, bool banded = false) {
  study::Findings findings;
  findings.study.file = "sizes.toml";
  findings.study.axes = {axis("vessel.panel_length", {"\"3 m\"", "\"4 m\"", "\"5 m\""}),
                         axis("vessel.channels.count", {"3", "5"}), axis("blend.soaked_moisture", {"\"60 %\""})};
  findings.site_name = "Quillbrook Orchards";
  findings.start_date = "2027-05-01";
  findings.units = units;
  findings.days = 150;
  findings.members = banded ? 16 : 1;
  findings.cases = findings.done = static_cast<std::size_t>(runs);
  for (int i = 0; i < runs; ++i) {
    study::CaseRow row{i + 1, study::State::done, "", "Pear row cage", {"\"3 m\"", "5", "\"60 %\""}, {}};
    row.numbers.assign(study::measures().size(), {1.0, 1.0, 1.0});
    const double share = runs > 1 ? static_cast<double>(i) / (runs - 1) : 0.5;
    const auto set = [&](const char* name, double value) {
      const double half = banded ? 0.1 * value : 0.0;
      row.numbers[study::measure_index(name)] = {value, value - half, value + half};
    };
    set("volume_m3", 0.8 + 3.0 * share);
    set("channels", 3.0 + i % 4);
    set("longest_air_path_m", 0.2 + 0.3 * share);
    set("share_3_days_above_55", 0.95 * share);
    set("water_put_on_kg_m3", 400.0 - 100.0 * share);
    set("cool_day", i % 5 == 4 ? unknown : 90.0 + 50.0 * share);
    findings.rows.push_back(row);
  }
  findings.front = study::front_of(findings.rows);
  return findings;
}

void expect_tidy(const PackLayout& layout) {
  const Box printable = shrink({0.0, 0.0, layout.paper.width_pt, layout.paper.height_pt}, 24.0);
  const auto& texts = layout.texts;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_TRUE(within(texts[i].ink, printable)) << texts[i].text;
    for (std::size_t j = i + 1; j < texts.size() && texts[j].page == texts[i].page; ++j)
      EXPECT_FALSE(overlap(texts[i].ink, texts[j].ink, 0.2)) << texts[i].text << " and " << texts[j].text;
  }
}

class StudySheet : public testing::TestWithParam<UnitSystem> {};

INSTANTIATE_TEST_SUITE_P(BothUnits, StudySheet, testing::Values(UnitSystem::metric, UnitSystem::us),
                         [](const auto& one) { return one.param == UnitSystem::us ? "us" : "metric"; });

TEST_P(StudySheet, HasNoTextsOverOneAnotherOrOffThePage) {
  for (const int runs : {1, 24, 200}) {
    expect_tidy(lay_out_study_sheet(findings_for(GetParam(), runs)));
    expect_tidy(lay_out_study_sheet(findings_for(GetParam(), runs, true)));
  }
}

TEST_P(StudySheet, TellsWhatWasVariedAndWhatCannotBeKnown) {
  study::Findings findings = findings_for(GetParam(), 24);
  findings.impossible = 3;
  const PackLayout layout = lay_out_study_sheet(findings);
  for (const char* words : {"vessel.panel_length", "3 m, 4 m, 5 m", "3 impossible", "without a band", "Cools first",
                            "Shortest air path", "A forecast is no proof", "your local code"})
    EXPECT_TRUE(mentions(layout.texts, words)) << words;
  EXPECT_TRUE(mentions(layout.texts, GetParam() == UnitSystem::us ? "Volume filled, yd3" : "Volume filled, m3"));
}

TEST_P(StudySheet, ListsEveryUnbeatenCaseWithItsNumber) {
  const study::Findings findings = findings_for(GetParam(), 12);
  ASSERT_FALSE(findings.front.empty());
  const PackLayout layout = lay_out_study_sheet(findings);
  const auto sheet = std::find_if(layout.sheets.begin(), layout.sheets.end(),
                                  [](const SheetStart& one) { return one.title.starts_with("Cases to choose from"); });
  ASSERT_NE(sheet, layout.sheets.end());
  for (const std::size_t i : findings.front) {
    const std::string number = std::to_string(findings.rows[i].number);
    EXPECT_TRUE(std::any_of(layout.texts.begin(), layout.texts.end(), [&](const PlacedText& one) {
      return one.page >= sheet->page && one.text == number;
    })) << number;
  }
}

TEST_P(StudySheet, StaysWholeWhenNoCaseCameToItsEnd) {
  study::Findings findings = findings_for(GetParam(), 4);
  for (study::CaseRow& row : findings.rows) row.state = study::State::failed;
  findings.front.clear();
  findings.done = 0;
  findings.failed = 4;
  const PackLayout layout = lay_out_study_sheet(findings);
  expect_tidy(layout);
  EXPECT_TRUE(mentions(layout.texts, "No case came to its end"));
}

TEST(StudySheetFiles, AreTheSameBytesTwice) {
  const auto folder = std::filesystem::temp_directory_path() / ("stillheap-study-sheet-" + std::to_string(::getpid()));
  const auto bytes = [&](const std::string& name) {
    std::filesystem::remove_all(folder / name);
    std::filesystem::create_directories(folder / name);
    std::string all;
    for (const auto& file : write_study_sheet(findings_for(UnitSystem::us, 24), folder / name)) {
      std::ifstream in(file, std::ios::binary);
      const std::string one{std::istreambuf_iterator<char>(in), {}};
      EXPECT_GT(one.size(), 1000U) << file;
      all += one;
    }
    return all;
  };
  EXPECT_EQ(bytes("one"), bytes("other"));
  std::filesystem::remove_all(folder);
}

std::vector<PlacedText> texts_of(const Scatter& scatter) {
  Canvas canvas = Canvas::blind({300.0, 200.0, "plot"});
  draw_scatter(canvas, {0.0, 0.0, 300.0, 200.0}, scatter);
  return canvas.texts();
}

TEST(Scatter, NamesAPointOnlyWhereThereIsRoom) {
  Scatter scatter{"Width, m", "Heat, %", {{1.0, 1.0, "lone"}, {9.0, 9.0, ""}}};
  for (int i = 0; i < 30; ++i) scatter.points.push_back({5.0, 5.0, "crowd " + std::to_string(i)});
  const std::vector<PlacedText> texts = texts_of(scatter);
  EXPECT_TRUE(mentions(texts, "lone"));
  const auto named =
      std::count_if(texts.begin(), texts.end(), [](const PlacedText& one) { return one.text.starts_with("crowd"); });
  EXPECT_GE(named, 1);
  EXPECT_LE(named, 4);
}

TEST(Scatter, TicksCountsAtWholeNumbersOnly) {
  const Scatter scatter{
      .x_title = "Channels", .y_title = "Heat, %", .points = {{3, 1, ""}, {4, 2, ""}}, .whole_x = true};
  for (const PlacedText& one : texts_of(scatter)) EXPECT_EQ(one.text.find("3.5"), std::string::npos);
  EXPECT_TRUE(mentions(texts_of(scatter), "3"));
}

TEST(Scatter, DrawsOneOrNoPointAtAll) {
  EXPECT_TRUE(mentions(texts_of({"Width, m", "Heat, %", {{2.0, 7.0, "one"}}}), "one"));
  EXPECT_TRUE(mentions(texts_of({"Width, m", "Heat, %", {{2.0, unknown, "none"}}}), "Width, m"));
  EXPECT_TRUE(mentions(texts_of({"Width, m", "Heat, %", {}}), "Width, m"));
}

}  // namespace
}  // namespace stillheap::sheet
