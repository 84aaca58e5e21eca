#include "domain/rules/self_heating.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numbers>

#include "domain/rules/harvest.hpp"
#include "domain/rules/worms.hpp"

namespace stillheap::rules {
namespace {

using Course = std::function<double(double day)>;

std::vector<HeatDay> days(int count, const Course& core, double hottest_above_k = 0.0) {
  std::vector<HeatDay> list;
  for (int day = 1; day <= count; ++day) list.push_back({1.0 * day, core(day), core(day) + hottest_above_k});
  return list;
}

/// Filled in October: 10 degC, down to 0 in January, up to 24 in July.
double air(double day) { return 12.0 - 12.0 * std::cos(2.0 * std::numbers::pi * (day - 100.0) / 365.0); }
/// 40 K above the air from day 5 to 30, then falling to nothing.
double heat(double day) { return day < 5.0 ? 8.0 * day : day < 30.0 ? 40.0 : 40.0 * std::exp(-(day - 30.0) / 20.0); }

TEST(SelfHeating, TakesNeitherSummerForHeatNorWinterForItsEnd) {
  const auto twin = days(365, air);
  const SelfHeating found = self_heating(days(365, [](double day) { return air(day) + heat(day); }), twin);
  ASSERT_TRUE(found.end_day().has_value());
  // 40 exp(-(t - 30) / 20) falls to 3 at 30 + 20 ln(40 / 3) = 81.8.
  EXPECT_EQ(*found.end_day(), 82.0);
  EXPECT_EQ(found.began_day, 1.0);
  EXPECT_EQ(found.rests.front().end_day, 365.0) << "and summer's 24 degC is no heat";
}

TEST(SelfHeating, DoesNotDependOnHowLongTheCourseIs) {
  const auto heap = days(365, [](double day) { return air(day) + heat(day); });
  const auto twin = days(365, air);
  for (const std::size_t length : {97UL, 120UL, 200UL, 365UL}) {
    const auto part = std::span(heap).first(length);
    EXPECT_EQ(self_heating(part, std::span(twin).first(length)).end_day(), 82.0) << length;
  }
  EXPECT_FALSE(self_heating(std::span(heap).first(95), twin).end_day()) << "13 days of rest are not 14";
}

TEST(SelfHeating, TakesNoFreezingWaterForHeat) {
  // Once at rest it stays at the freezing point while its twin follows the air to -8 degC.
  const auto winter = [](double day) { return day > 100.0 && day < 160.0 ? -8.0 : 8.0; };
  const auto heap = [&](double day) { return day < 40.0 ? 50.0 : std::max(winter(day), 0.0); };
  const SelfHeating found = self_heating(days(200, heap), days(200, winter));
  ASSERT_EQ(found.rests.size(), 1U);
  EXPECT_EQ(found.rests.front().end_day, 200.0);
  const auto working = [&](double day) { return day < 40.0 ? 50.0 : winter(day) + 12.0; };
  EXPECT_TRUE(self_heating(days(200, working), days(200, winter)).rests.empty()) << "4 degC in frost is heat";
}

TEST(Harvest, ComesAMonthIntoARestThatHoldsOn) {
  const std::vector<Rest> rests{{50.0, 120.0}, {200.0, 240.0}};
  EXPECT_EQ(harvest::cured_day(rests, 365.0, 60.0), 80.0);
  EXPECT_EQ(harvest::cured_day(rests, 365.0, 100.0), 100.0);
  EXPECT_EQ(harvest::cured_day(rests, 365.0, 150.0), 230.0) << "not between the two";
  EXPECT_FALSE(harvest::cured_day(rests, 365.0, 274.0)) << "it heats again";
  EXPECT_EQ(harvest::cured_day(rests, 240.5, 274.0), 274.0) << "a rest to the end of what is known goes on";
}

TEST(SelfHeating, LooksAtTheHottestPlaceToo) {
  const auto core = [](double day) { return air(day) + heat(day); };
  EXPECT_FALSE(self_heating(days(200, core, 4.0), days(200, air)).end_day());
  EXPECT_TRUE(self_heating(days(200, core, 4.0), days(200, air, 4.0)).end_day());
}

TEST(SelfHeating, OfAHeapThatNeverHeatedHasNoEnd) {
  const SelfHeating found = self_heating(days(100, [](double day) { return air(day) + 2.9; }), days(100, air));
  EXPECT_FALSE(found.began_day);
  EXPECT_FALSE(found.end_day());
  EXPECT_TRUE(self_heating(days(100, air), days(100, air), true).end_day()) << "it heated before it was read";
}

TEST(SelfHeating, KeepsItsFirstEndWhenItWarmsAgain) {
  const auto course = [](double day) { return air(day) + (day < 20.0 || (day > 60.0 && day < 80.0) ? 20.0 : 0.0); };
  const SelfHeating found = self_heating(days(150, course), days(150, air));
  ASSERT_EQ(found.rests.size(), 2U);
  EXPECT_EQ(*found.end_day(), 20.0);
  EXPECT_EQ(found.rests[1].begin_day, 80.0);
}

TEST(SelfHeating, SaysNothingOverAGap) {
  std::vector<HeatDay> heap = days(20, [](double day) { return air(day) + 20.0; });
  for (const double day : {25.0, 32.0, 45.0, 50.0}) heap.push_back({day, air(day), air(day)});
  EXPECT_FALSE(self_heating(heap, days(100, air)).end_day()) << "13 days without a reading join nothing";
  heap.push_back({57.0, air(57.0), air(57.0)});
  heap.push_back({60.0, air(60.0), air(60.0)});
  EXPECT_EQ(self_heating(heap, days(100, air)).end_day(), 45.0);
}

TEST(WormWindow, IsHeldFromBothSidesAndByWaterAirAndFrost) {
  const worms::Day good{90.0, 18.0, 20.0, 0.62, 0.18, 4.0};
  const auto first = [](const worms::Day& day) { return worms::first_day(std::vector<worms::Day>{day}, 40.0); };
  EXPECT_EQ(first(good), 90.0);
  for (const auto& change : std::vector<std::function<void(worms::Day&)>>{
           [](worms::Day& day) { day.core_c = 1.0; }, [](worms::Day& day) { day.core_c = 27.0; },
           [](worms::Day& day) { day.hottest_c = 31.0; }, [](worms::Day& day) { day.moisture_wet = 0.30; },
           [](worms::Day& day) { day.moisture_wet = 0.95; }, [](worms::Day& day) { day.oxygen = 0.05; },
           [](worms::Day& day) { day.coldest_ahead_c = -1.0; }, [](worms::Day& day) { day.day = 27.0; },
           [](worms::Day& day) { day.day = 39.0; }, [](worms::Day& day) { day.rests = false; }}) {
    worms::Day day = good;
    change(day);
    EXPECT_FALSE(first(day));
  }
}

}  // namespace
}  // namespace stillheap::rules
