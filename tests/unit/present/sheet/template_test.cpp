#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>

#include "core/base/error.hpp"
#include "present/template/template_drawing.hpp"
#include "present/template/template_index.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

std::filesystem::path fresh(const std::string& name) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("stillheap-template-" + name + "-" + std::to_string(::getpid()));
  std::filesystem::remove_all(folder);
  return folder;
}

TEST(Tiling, CoversTheFrameWithTheFewestPagesThatOverlapAsAsked) {
  for (const double wide : {0.05, 0.186, 0.187, 0.360, 0.361, 1.7}) {
    const vessel::Frame area{-0.3 * wide, -0.1, 0.7 * wide, 0.3};
    const Tiling tiling = tile(area, {0.186, 0.249, 0.012});
    EXPECT_LE(tiling.tiles.front().window.left_m, area.left_m + 1e-12);
    EXPECT_GE(tiling.tiles.back().window.right_m, area.right_m - 1e-12);
    EXPECT_GE(tiling.tiles.front().window.high_m, area.high_m - 1e-12);
    EXPECT_LE(tiling.tiles.back().window.low_m, area.low_m + 1e-12);
    EXPECT_EQ(static_cast<int>(tiling.tiles.size()), tiling.rows * tiling.columns);
    // One page less would not reach.
    EXPECT_LT((tiling.columns - 1) * (0.186 - 0.012) + (tiling.columns > 1 ? 0.012 : 0.0), wide - 1e-12);
    for (std::size_t i = 1; i < static_cast<std::size_t>(tiling.columns); ++i) {
      EXPECT_NEAR(tiling.tiles[i - 1].window.right_m - tiling.tiles[i].window.left_m, 0.012, 1e-12);
    }
  }
}

TEST(Tiling, PutsTheSameMarksOnNeighbours) {
  const Tiling tiling = tile({-0.5, -0.5, 0.5, 0.5}, {0.186, 0.249, 0.012});
  const auto columns = static_cast<std::size_t>(tiling.columns);
  const auto here = overlap_marks(tiling, tiling.tiles[0]);
  const auto right = overlap_marks(tiling, tiling.tiles[1]);
  const auto below = overlap_marks(tiling, tiling.tiles[columns]);
  EXPECT_NEAR(distance_m(here[1], right[0]), 0.0, 1e-12);
  EXPECT_NEAR(distance_m(here[3], right[2]), 0.0, 1e-12);
  EXPECT_NEAR(distance_m(here[0], below[2]), 0.0, 1e-12);
  EXPECT_NEAR(distance_m(here[1], below[3]), 0.0, 1e-12);
}

TEST(Tiling, NamesRowsByLettersAndColumnsByNumbers) {
  EXPECT_EQ(tile_name(0, 0), "A1");
  EXPECT_EQ(tile_name(25, 11), "Z12");
  EXPECT_EQ(tile_name(26, 0), "AA1");
}

TEST(Tiling, RefusesAPageNoLargerThanItsOverlap) {
  EXPECT_THROW((void)tile({0, 0, 1, 1}, {0.01, 0.2, 0.012}), InputError);
}

class Template : public testing::TestWithParam<std::pair<bool, UnitSystem>> {
 protected:
  const vessel::Design design_ = GetParam().first ? sample::round_design() : sample::crate_design();
  const TemplateDrawing drawing_ = template_drawing(design_, GetParam().second);
};

INSTANTIATE_TEST_SUITE_P(ShapesAndUnits, Template,
                         testing::Values(std::pair{true, UnitSystem::metric}, std::pair{true, UnitSystem::us},
                                         std::pair{false, UnitSystem::metric}, std::pair{false, UnitSystem::us}));

TEST_P(Template, HasAHoleForEveryFormAndNoOther) {
  std::vector<TemplateCircle> holes;
  for (const TemplateCircle& one : drawing_.circles) {
    if (one.layer == TemplateLayer::hole) holes.push_back(one);
  }
  ASSERT_EQ(holes.size(), design_.channels.size());
  for (std::size_t i = 0; i < holes.size(); ++i) {
    EXPECT_EQ(distance_m(holes[i].centre, design_.channels[i].centre), 0.0);
    EXPECT_EQ(2.0 * holes[i].radius_m, design_.channels[i].diameter_m);
  }
}

TEST_P(Template, TextsNeitherOverlapNorCrossAHolesEdge) {
  Canvas canvas = Canvas::blind({9000.0, 9000.0, "large"});
  draw_template(canvas, drawing_, drawing_.whole, {4500.0, 4500.0});
  const auto& texts = canvas.texts();
  EXPECT_GE(texts.size(), 2 * design_.channels.size() + 2);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      EXPECT_FALSE(overlap(texts[i].ink, texts[j].ink)) << texts[i].text << " | " << texts[j].text;
    }
    for (const TemplateCircle& hole : drawing_.circles) {
      if (hole.layer != TemplateLayer::hole) continue;
      const Box& ink = texts[i].ink;
      int inside = 0;
      for (const Spot corner :
           {Spot{ink.x, ink.y}, Spot{ink.right(), ink.y}, Spot{ink.x, ink.bottom()}, Spot{ink.right(), ink.bottom()}}) {
        const double x = 4500.0 + hole.centre.x_m * points_a_metre;
        const double y = 4500.0 - hole.centre.y_m * points_a_metre;
        inside += std::hypot(corner.x - x, corner.y - y) < hole.radius_m * points_a_metre ? 1 : 0;
      }
      EXPECT_TRUE(inside == 0 || inside == 4) << texts[i].text;
    }
  }
}

TEST_P(Template, IndexPageHasNoOverlapAndStaysOnThePage) {
  for (const UnitSystem paper : {UnitSystem::metric, UnitSystem::us}) {
    Canvas canvas = Canvas::blind(paper_for(paper));
    draw_index(canvas, drawing_, tile(drawing_.holes, window_of(paper_for(paper), GetParam().second)));
    const auto& texts = canvas.texts();
    const Box printable = shrink({0.0, 0.0, canvas.paper().width_pt, canvas.paper().height_pt}, 24.0);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      EXPECT_TRUE(within(texts[i].ink, printable)) << texts[i].text;
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        EXPECT_FALSE(overlap(texts[i].ink, texts[j].ink)) << texts[i].text << " | " << texts[j].text;
      }
    }
  }
}

TEST(Templates, AreFiveFilesAVesselWithChannels) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const auto files = write_templates(plan, fresh("five"));
  ASSERT_EQ(files.size(), 5 * plan.vessels.size());
  std::set<std::filesystem::path> names(files.begin(), files.end());
  EXPECT_EQ(names.size(), files.size());
  for (const auto& file : files) EXPECT_GT(std::filesystem::file_size(file), 2000U) << file;
  plan.vessels.front().design.channels.clear();
  EXPECT_EQ(write_templates(plan, fresh("fewer")).size(), 5 * (plan.vessels.size() - 1));
}

TEST(Templates, SayWhichFileCannotBeWritten) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const auto folder = fresh("blocked");
  std::ofstream(folder) << "a file where the folder should be";
  EXPECT_THROW((void)write_templates(plan, folder), RunError);
  std::filesystem::remove(folder);
}

TEST(Templates, WriteDxfOfRelease12InPlainAscii) {
  vessel::Design design = sample::round_design();
  design.name = "Kübel";
  const std::string text = template_dxf(template_drawing(design, UnitSystem::metric));
  EXPECT_NE(text.find("AC1009"), std::string::npos);
  EXPECT_TRUE(std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 128; }));
  EXPECT_NE(text.find("72%%d"), std::string::npos) << "the degree sign as release 12 writes it";
}

}  // namespace
}  // namespace stillheap::sheet
