#include <gtest/gtest.h>

#include <algorithm>

#include "core/base/date.hpp"
#include "present/sheet/pack.hpp"
#include "sample_plan.hpp"

namespace stillheap::sheet {
namespace {

/// A yard of more or fewer vessels with a material in its season; `most_places` 0: as many as it takes.
plan::Plan plan_with_supply(UnitSystem units, double wanted_m3_month, int most_places) {
  plan::Plan plan = sample::plan_for(units);
  supply::Wish wish;
  wish.wanted_m3.assign(24, 0.5 * wanted_m3_month);
  wish.yield_m3 = 1.1;
  wish.harvest_days = 300.0;
  wish.rest_days = 7.0;
  wish.may_fill.assign(24, true);
  wish.may_fill[0] = wish.may_fill[1] = false;
  wish.most_places = most_places;
  wish.store_days = 120.0;
  supply::Season leaves{"leaves", "Leaves, mixed, shredded", 0.4, std::vector<double>(24, 0.0), 400.0};
  leaves.arises_m3[21] = 200.0;
  wish.seasons = {leaves};
  wish.most_hours.assign(24, 120.0);
  wish.work = {{{"filling", 0.0, 6.0}, {"forms out", 1.0, 1.0}, {"worms", 60.0, 0.5}}, 3.0, 1.0 / 60.0};
  plan.supply = supply::work_out(wish, *date::parse_iso(plan.site.start_date));
  plan.supply->site = plan.site.name;
  plan.supply->vessel = plan.vessels[0].design.name;
  plan.site.supply.emplace().vessel = plan.supply->vessel;
  return plan;
}

bool has_sheet(const PackLayout& layout, const std::string& title) {
  return std::any_of(layout.sheets.begin(), layout.sheets.end(),
                     [&](const SheetStart& sheet) { return sheet.title.starts_with(title); });
}

void expect_clean(const PackLayout& layout) {
  const Box printable = shrink({0.0, 0.0, layout.paper.width_pt, layout.paper.height_pt}, 24.0);
  for (std::size_t i = 0; i < layout.texts.size(); ++i) {
    const PlacedText& one = layout.texts[i];
    EXPECT_TRUE(within(one.ink, printable)) << "page " << one.page << ": \"" << one.text << "\"";
    for (std::size_t j = i + 1; j < layout.texts.size() && layout.texts[j].page == one.page; ++j)
      EXPECT_FALSE(overlap(one.ink, layout.texts[j].ink, 0.2))
          << "page " << one.page << ": \"" << one.text << "\" and \"" << layout.texts[j].text << "\"";
  }
}

bool mentions(const PackLayout& layout, const std::string& words) {
  return std::any_of(layout.texts.begin(), layout.texts.end(),
                     [&](const PlacedText& text) { return text.text.find(words) != std::string::npos; });
}

TEST(SupplyPage, IsThereOnlyWithAYardPlan) {
  const plan::Plan without = sample::plan_for(UnitSystem::metric);
  EXPECT_FALSE(has_sheet(lay_out_pack(without), "Yard plan"));
  EXPECT_FALSE(has_sheet(lay_out_building_sheets(without), "Yard plan"));
  const plan::Plan with = plan_with_supply(UnitSystem::metric, 1.0, 0);
  EXPECT_TRUE(has_sheet(lay_out_pack(with), "Yard plan"));
  EXPECT_TRUE(has_sheet(lay_out_building_sheets(with), "Yard plan"));
  EXPECT_TRUE(mentions(lay_out_building_sheets(with), "What it rests on: a filling:"));
}

TEST(SupplyPage, IsFreeOfOverlapWithFewAndWithManyPlaces) {
  for (const auto& [units, wanted_m3_month] :
       {std::pair{UnitSystem::metric, 0.3}, {UnitSystem::us, 1.0}, {UnitSystem::metric, 6.0}}) {
    const plan::Plan plan = plan_with_supply(units, wanted_m3_month, 0);
    ASSERT_TRUE(plan.supply->met);
    expect_clean(lay_out_building_sheets(plan));
  }
}

TEST(SupplyPage, SaysWhatIsShortAndTheWayOut) {
  const plan::Plan plan = plan_with_supply(UnitSystem::metric, 2.0, 6);
  ASSERT_FALSE(plan.supply->met);
  const PackLayout layout = lay_out_building_sheets(plan);
  expect_clean(layout);
  EXPECT_TRUE(mentions(layout, "Not all that is wanted can be ready"));
  EXPECT_TRUE(mentions(layout, "places instead of 6"));
}

}  // namespace
}  // namespace stillheap::sheet
