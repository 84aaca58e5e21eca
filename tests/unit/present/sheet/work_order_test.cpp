#include "present/sheet/work_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "domain/vessel/parts.hpp"
#include "planning/plan/sheet_plan.hpp"
#include "present/sheet/pack.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

void expect_whole(const PackLayout& layout, const std::string& what) {
  const Box printable = shrink({0.0, 0.0, layout.paper.width_pt, layout.paper.height_pt}, 24.0);
  for (std::size_t i = 0; i < layout.texts.size(); ++i) {
    EXPECT_TRUE(within(layout.texts[i].ink, printable)) << what << ": " << layout.texts[i].text;
    for (std::size_t j = i + 1; j < layout.texts.size() && layout.texts[j].page == layout.texts[i].page; ++j) {
      EXPECT_FALSE(overlap(layout.texts[i].ink, layout.texts[j].ink, 0.2))
          << what << ", page " << layout.texts[i].page << ": " << layout.texts[i].text << " | " << layout.texts[j].text;
    }
  }
}

/// Each job of the work order begins a page, and the next sheet begins the page after.
void expect_one_page_each(const PackLayout& layout, const std::string& what) {
  for (std::size_t i = 0; i < layout.sheets.size(); ++i) {
    const std::string& title = layout.sheets[i].title;
    if (title.rfind("Work order", 0) != 0 || title.find("lift by lift") != std::string::npos) continue;
    const int next = i + 1 < layout.sheets.size() ? layout.sheets[i + 1].page : layout.pages + 1;
    EXPECT_EQ(next, layout.sheets[i].page + 1) << what << ": " << title;
  }
}

class BuildingSheets : public testing::TestWithParam<const char*> {};

INSTANTIATE_TEST_SUITE_P(Examples, BuildingSheets,
                         testing::Values("orchard-cooperative", "common-round-us", "rectangular-yard"),
                         [](const auto& one) {
                           std::string name = one.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST_P(BuildingSheets, AreWholeAndHaveOnePageAJob) {
  const auto file = std::filesystem::path(STILLHEAP_SOURCE_DIR) / "examples" / GetParam() / "site.toml";
  const PackLayout layout = lay_out_building_sheets(plan::plan_for_sheets(site::read_site(file)));
  EXPECT_GE(layout.pages, 13);
  expect_whole(layout, GetParam());
  expect_one_page_each(layout, GetParam());
}

/// Vessels at the edges of what people build: small and large, low and tall, with few and many forms.
std::vector<vessel::Design> odd_designs() {
  std::vector<vessel::Design> designs;
  for (const double diameter : {0.5, 0.9, 3.0}) {
    for (const double height : {0.5, 1.1, 2.2}) {
      vessel::Design design;
      design.name = "Cage behind the second barn on the way to the lower pond";
      design.diameter_m = diameter;
      design.height_m = height;
      design.fill_height_m = 0.95 * height;
      design.base_gap_m = 0.1 * diameter;
      design.lining_overlap_m = design.lining_fold_m = 0.06;
      const int count = static_cast<int>(std::lround(4.0 * diameter + height));
      design.channels = vessel::ring_channels({count, 0.28 * diameter, 0.3}, 0.06, height > 1.0);
      designs.push_back(design);
      design.footprint = vessel::Footprint::rectangular;
      design.length_m = 1.8 * diameter;
      design.width_m = 0.8 * diameter;
      design.wall = vessel::Wall::closed;
      if (height > 2.0) design.channels.resize(1);
      designs.push_back(design);
    }
  }
  designs.back().base_open = false;
  designs.back().base_gap_m = 0.0;
  designs.front().channels.clear();
  return designs;
}

TEST(BuildingSheets, StayWholeForVesselsAtTheEdges) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    plan::Plan plan = sample::plan_for(units);
    plan.vessels.resize(1);
    for (const vessel::Design& design : odd_designs()) {
      plan.vessels[0].design = design;
      plan.vessels[0].pieces = vessel::pieces_of(design);
      const PackLayout layout = lay_out_building_sheets(plan);
      const std::string what = std::to_string(design.diameter_m) + " by " + std::to_string(design.height_m) +
                               (design.footprint == vessel::Footprint::round ? " round" : " rectangular");
      expect_whole(layout, what);
      expect_one_page_each(layout, what);
    }
  }
}

TEST(WorkOrder, HasAStepWithACautionInEveryJobAndAPictureBesideEachStep) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const std::vector<Job> jobs = jobs_of(plan, plan.vessels.front());
  ASSERT_EQ(jobs.size(), 6U);
  for (const Job& job : jobs) {
    EXPECT_TRUE(std::any_of(job.steps.begin(), job.steps.end(), [](const WorkStep& step) {
      return !step.caution.empty();
    })) << job.title;
    EXPECT_LE(job.steps.size(), 5U) << job.title;
    EXPECT_FALSE(job.tools.empty() || job.people.empty() || job.hours.empty()) << job.title;
    for (const WorkStep& step : job.steps) EXPECT_TRUE(static_cast<bool>(step.picture)) << step.words;
  }
}

TEST(WorkOrder, LeavesTheFormsOutWhenThereAreNone) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  plan.vessels.front().design.channels.clear();
  const std::vector<Job> jobs = jobs_of(plan, plan.vessels.front());
  EXPECT_EQ(jobs.size(), 5U);
  for (const Job& job : jobs) {
    EXPECT_NE(job.title, "forms out");
    for (const WorkStep& step : job.steps) EXPECT_EQ(step.words.find(" form"), std::string::npos) << step.words;
  }
}

TEST(WorkOrder, SetsNoTimerWhereTheProgrammeNeverRuns) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const auto says = [&](const std::string& words) {
    for (const Job& job : jobs_of(plan, plan.vessels.front())) {
      for (const WorkStep& step : job.steps) {
        if (step.words.find(words) != std::string::npos) return true;
      }
    }
    return false;
  };
  EXPECT_TRUE(says("Set the timer by the water card"));
  for (water::Row& row : plan.vessels.front().programme.rows) {
    row.setting = water::Setting::enough;
    row.runs = 0;
  }
  EXPECT_FALSE(says("Set the timer"));
  EXPECT_TRUE(says("Leave the timer off"));
}

TEST(WorkOrder, WarnsOfDrinkingWaterOnlyWhereTheLineHangsOnIt) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const auto warned = [&] {
    for (const Job& job : jobs_of(plan, plan.vessels.front())) {
      for (const WorkStep& step : job.steps) {
        if (step.caution.find("back-flow") != std::string::npos) return true;
      }
    }
    return false;
  };
  plan.site.water.drinking_water = true;
  EXPECT_TRUE(warned());
  plan.site.water.drinking_water = false;
  EXPECT_FALSE(warned());
}

}  // namespace
}  // namespace stillheap::sheet
