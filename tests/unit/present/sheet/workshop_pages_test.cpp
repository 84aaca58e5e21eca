#include <gtest/gtest.h>

#include <algorithm>

#include "present/sheet/cut_drawing.hpp"
#include "present/sheet/pack.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

bool mentions(const PackLayout& layout, const std::string& words) {
  return std::any_of(layout.texts.begin(), layout.texts.end(),
                     [&](const PlacedText& text) { return text.text.find(words) != std::string::npos; });
}

TEST(CutDrawing, LettersPartsOnAndOn) {
  EXPECT_EQ(part_letter(0), "A");
  EXPECT_EQ(part_letter(25), "Z");
  EXPECT_EQ(part_letter(26), "AA");
  EXPECT_EQ(part_letter(53), "BB");
}

TEST(CutDrawing, DrawsStockThatIsCutAlikeOnceAndSaysHowOften) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  const std::vector<AlikeCuts> mesh = alike_cuts(plan.cutting[0].cuts);
  ASSERT_EQ(mesh.size(), 1U);
  EXPECT_EQ(mesh[0].count, 3);
  int sum = 0;
  for (const AlikeCuts& group : alike_cuts(plan.cutting[2].cuts)) sum += group.count;
  EXPECT_EQ(sum, static_cast<int>(plan.cutting[2].cuts.pieces.size()));
}

TEST(CutDrawing, FitsTheWidthItIsGiven) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  for (const plan::MaterialCuts& material : plan.cutting) {
    const double denominator = cut_scale(material, 499.0);
    const double longest_m =
        std::max_element(material.cuts.pieces.begin(), material.cuts.pieces.end(), [](const auto& a, const auto& b) {
          return a.used_m < b.used_m;
        })->used_m;
    EXPECT_LE(longest_m / denominator, 499.0 * 0.0254 / 72.0) << material.job.what;
  }
}

TEST(WorkshopPages, SayWasteProofAndWhatAnotherWidthWouldDo) {
  const plan::Plan plan = sample::plan_for(UnitSystem::metric);
  EXPECT_TRUE(mentions(lay_out_pack(plan), "no cutting of this kind takes less"));
  const PackLayout layout = lay_out_appendix(plan);
  EXPECT_TRUE(mentions(layout, "too narrow for the height as drawn"));
  EXPECT_TRUE(mentions(layout, "by length") || mentions(layout, "as planned"));
}

TEST(WorkshopPages, NameFilterRegulatorAndDraining) {
  const PackLayout layout = lay_out_pack(sample::plan_for(UnitSystem::metric));
  EXPECT_TRUE(mentions(layout, "170 mesh or finer")) << "holes of 0.8 mm";
  EXPECT_TRUE(mentions(layout, "Pressure regulator"));
  EXPECT_TRUE(mentions(layout, "Draining before frost"));
}

TEST(WorkshopPages, JudgeTheLoadsAndDeferToOthers) {
  plan::Plan plan = sample::plan_for(UnitSystem::metric);
  EXPECT_TRUE(mentions(lay_out_pack(plan), "Holds: most on the ground"));
  EXPECT_TRUE(mentions(lay_out_pack(plan), "only its maker can say"));
  plan.site.soil_bearing_pa = 1000.0;
  EXPECT_TRUE(mentions(lay_out_pack(plan), "Does not hold: most on the ground"));
  plan.site.soil_bearing_pa = 0.0;
  EXPECT_TRUE(mentions(lay_out_pack(plan), "table 1806.2"));
}

}  // namespace
}  // namespace stillheap::sheet
