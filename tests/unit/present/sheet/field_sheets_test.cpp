#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "core/base/error.hpp"
#include "present/film/animation.hpp"
#include "present/film/encoder.hpp"
#include "present/sheet/section_figure.hpp"
#include "present/sheet/year_sheet.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

std::filesystem::path fresh_folder(const std::string& name) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("stillheap-film-" + name + "-" + std::to_string(::getpid()));
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  return folder;
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void expect_whole(const Canvas& canvas) {
  const Box paper{0.0, 0.0, canvas.paper().width_pt, canvas.paper().height_pt};
  const auto& texts = canvas.texts();
  EXPECT_GT(texts.size(), 10U);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_TRUE(within(texts[i].ink, shrink(paper, 10.0))) << texts[i].text;
    for (std::size_t j = i + 1; j < texts.size(); ++j)
      EXPECT_FALSE(overlap(texts[i].ink, texts[j].ink, 0.2)) << texts[i].text << " | " << texts[j].text;
  }
}

/// With frames on a few days.
plan::Plan animated_plan(UnitSystem units) {
  plan::Plan plan = sample::plan_for(units);
  for (plan::VesselPlan& vessel : plan.vessels)
    vessel.forecast.frames.assign(vessel.forecast.snapshots.begin(), vessel.forecast.snapshots.begin() + 3);
  return plan;
}

std::vector<Span> scales_for(const plan::VesselPlan& vessel, UnitSystem units) {
  std::vector<Span> scales;
  for (const ShownField& shown : shown_fields(units))
    scales.push_back(shared_scale(vessel.forecast.frames, shown, units));
  return scales;
}

class FieldSheets : public testing::TestWithParam<UnitSystem> {};
INSTANTIATE_TEST_SUITE_P(BothUnits, FieldSheets, testing::Values(UnitSystem::metric, UnitSystem::us),
                         [](const auto& one) { return one.param == UnitSystem::us ? "us" : "metric"; });

TEST_P(FieldSheets, YearSheetKeepsItsTextsApartAndOnOnePage) {
  const plan::Plan plan = sample::plan_for(GetParam());
  for (const plan::VesselPlan& vessel : plan.vessels) {
    Canvas canvas = Canvas::blind(year_paper(GetParam(), vessel));
    draw_year_sheet(canvas, plan, vessel);
    EXPECT_EQ(canvas.page(), 1);
    expect_whole(canvas);
  }
}

TEST_P(FieldSheets, FramesKeepTheirTextsApart) {
  const plan::Plan plan = animated_plan(GetParam());
  for (const plan::VesselPlan& vessel : plan.vessels) {
    Canvas canvas = Canvas::blind(frame_paper());
    draw_frame(canvas, plan, vessel, vessel.forecast.frames.back(), scales_for(vessel, GetParam()));
    expect_whole(canvas);
  }
}

TEST(YearSheet, TakesFirstAndLastAndAtMostEight) {
  forecast::Result result;
  EXPECT_TRUE(year_snapshots(result).empty());
  result.snapshots.resize(3);
  EXPECT_EQ(year_snapshots(result), (std::vector<std::size_t>{0, 1, 2}));
  result.snapshots.resize(18);
  const auto chosen = year_snapshots(result);
  ASSERT_EQ(chosen.size(), 8U);
  EXPECT_EQ(chosen.front(), 0U);
  EXPECT_EQ(chosen.back(), 17U);
  EXPECT_TRUE(std::is_sorted(chosen.begin(), chosen.end()));
}

TEST(SectionFigures, ShowAllDaysThatTheReaderChoseFourByFour) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const forecast::Result& result = plan.vessels.front().forecast;
  ASSERT_EQ(result.snapshots.size(), 10U);
  EXPECT_EQ(section_figures(plan, result).size(), 1U);
  plan.site.picture_days = {1.0, 2.0};
  const auto figures = section_figures(plan, result);
  ASSERT_EQ(figures.size(), 3U);
  EXPECT_EQ(figures[0].size(), 4U);
  EXPECT_EQ(figures[2], (std::vector<std::size_t>{8, 9}));
}

TEST(SharedScale, HoldsEveryValueOfEverySnapshot) {
  const plan::Plan plan = sample::plan_for(UnitSystem::us);
  const auto& snapshots = plan.vessels.front().forecast.snapshots;
  for (const ShownField& shown : shown_fields(UnitSystem::us)) {
    const Span scale = shared_scale(snapshots, shown, UnitSystem::us);
    for (const forecast::Snapshot& snapshot : snapshots) {
      for (const float value : snapshot.*shown.field) {
        EXPECT_GE(value, scale.low - 1e-6) << shown.name;
        EXPECT_LE(value, scale.high + 1e-6) << shown.name;
      }
    }
  }
}

TEST(WaterMap, FallsEvenlyInLightness) {
  const double first = lightness(map_colour(FieldMap::water, 0.0));
  const double last = lightness(map_colour(FieldMap::water, 1.0));
  EXPECT_GT(first - last, 60.0);
  for (double t = 0.0; t <= 1.0; t += 0.05)
    EXPECT_NEAR(lightness(map_colour(FieldMap::water, t)), first + t * (last - first), 1.5) << t;
}

TEST(Film, RefusesAnotherEndingAndAMissingEncoder) {
  EXPECT_THROW(check_encoder("inside.avi"), InputError);
  const std::string before = std::getenv("PATH");
  ::setenv("PATH", "/nowhere", 1);
  EXPECT_THROW(check_encoder("inside.gif"), RunError);
  ::setenv("PATH", before.c_str(), 1);
}

TEST(Film, IsWrittenForEveryVesselAndTheSameTwice) {
  try {
    check_encoder("inside.gif");
  } catch (const RunError& error) {
    GTEST_SKIP() << error.what();
  }
  const plan::Plan plan = animated_plan(UnitSystem::metric);
  const auto folder = fresh_folder("twice");
  for (const char* const end : {".gif", ".mp4"}) {
    const auto files = write_animation(plan, folder / (std::string("inside") + end));
    ASSERT_EQ(files.size(), plan.vessels.size());
    const auto again = write_animation(plan, folder / (std::string("again") + end));
    for (std::size_t i = 0; i < files.size(); ++i) {
      const std::string film = bytes_of(files[i]);
      EXPECT_EQ(film.substr(end[1] == 'g' ? 0 : 4, 4), end[1] == 'g' ? "GIF8" : "ftyp");
      EXPECT_TRUE(film == bytes_of(again[i])) << files[i];
    }
  }
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    EXPECT_TRUE(entry.path().extension() == ".gif" || entry.path().extension() == ".mp4") << entry.path();
}

TEST(Film, NamesTheFileThatCannotBeWrittenAndTheMissingFrames) {
  const plan::Plan still = sample::plan_for(UnitSystem::metric);
  EXPECT_THROW((void)write_animation(still, fresh_folder("still") / "inside.gif"), RunError);
  EXPECT_THROW((void)write_animation(animated_plan(UnitSystem::metric), "/nowhere/inside.gif"), RunError);
}

}  // namespace
}  // namespace stillheap::sheet
