#include "planning/water/programme.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "core/base/error.hpp"
#include "planning/water/words.hpp"

namespace stillheap::water {
namespace {

using std::chrono::days;

const date::Day filled = *date::parse_iso("2027-04-01");

std::vector<DayOfHeap> steady(double lost_kg, double rain_kg, int count = 365) {
  return std::vector<DayOfHeap>(static_cast<std::size_t>(count), {lost_kg, rain_kg, 300.0, false});
}

/// A timer of one-minute steps, 4 kg a step.
Way four_kg_a_minute() { return {.step_kg = 4.0, .step_s = 60.0}; }

double sum_of_days(const Programme& programme) {
  return std::accumulate(programme.reaching_kg.begin(), programme.reaching_kg.end(), 0.0);
}

TEST(Programme, GivesBackWhatRainDoesNot) {
  const Programme programme = make_programme(filled, steady(12.0, 4.0), four_kg_a_minute(), 0);
  ASSERT_EQ(programme.rows.size(), 24U);
  EXPECT_LT(programme.rows[0].runs * programme.rows[0].run_kg, 15 * 8.0 - 20.0) << "room is left: a tenth of 300 kg";
  for (std::size_t i = 1; i < programme.rows.size(); ++i) {
    const Row& row = programme.rows[i];
    EXPECT_EQ(row.setting, Setting::runs);
    EXPECT_EQ(row.every_days, 1);
    EXPECT_EQ(row.steps, 2) << "8 kg a day";
    EXPECT_NEAR(row.rain_credited_kg, row.rain_kg, 1e-9);
  }
}

TEST(Programme, IsTheSumOfItsRowsAndOfItsDays) {
  Way way = four_kg_a_minute();
  way.efficiency = 0.7;
  way.leaching_share = 0.15;
  std::vector<DayOfHeap> heap = steady(9.3, 1.7, 420);
  for (std::size_t day = 0; day < heap.size(); ++day) {
    heap[day].lost_kg *= 1.0 + std::sin(0.017 * static_cast<double>(day));
    heap[day].wanted_kg -= 0.3 * static_cast<double>(day);
    heap[day].frost = day > 240 && day < 300;
  }
  const Programme programme = make_programme(filled, heap, way, 1);
  EXPECT_NEAR(sum_of_days(programme), reaching_kg(programme), 1e-9);
  EXPECT_NEAR(let_out_kg(programme) * 0.7, reaching_kg(programme), 1e-9);
  EXPECT_EQ(programme.reaching_kg.front(), 0.0) << "not on the day of filling";
  int counted = 0, written = 0;
  for (const double kg : programme.reaching_kg) counted += kg > 0.0 ? 1 : 0;
  for (const Row& row : programme.rows) written += row.runs;
  EXPECT_EQ(counted, written);
}

TEST(Programme, LetsOutMoreForLeachingAndForWhatFallsBeside) {
  Way fine = {.step_kg = 0.01, .step_s = 1.0};
  const double bare_kg = let_out_kg(make_programme(filled, steady(10.0, 0.0), fine, 0));
  EXPECT_NEAR(bare_kg, 3650.0 - 30.0, 1.0);
  fine.leaching_share = 0.2;
  EXPECT_NEAR(let_out_kg(make_programme(filled, steady(10.0, 0.0), fine, 0)), bare_kg / 0.8, 2.0);
  fine.efficiency = 0.6;
  EXPECT_NEAR(let_out_kg(make_programme(filled, steady(10.0, 0.0), fine, 0)), bare_kg / 0.8 / 0.6, 3.0);
  EXPECT_NEAR(reaching_kg(make_programme(filled, steady(10.0, 0.0), fine, 0)), bare_kg / 0.8, 2.0);
}

TEST(Programme, RunsAtLeastOnceAWeekOrNotAtAll) {
  for (const double lost_kg : {0.02, 0.1, 0.3, 0.6, 1.0, 1.7, 2.9, 7.0}) {
    const Programme programme = make_programme(filled, steady(lost_kg, 0.0), four_kg_a_minute(), 0);
    for (const Row& row : programme.rows) {
      if (row.setting == Setting::runs) {
        EXPECT_GE(row.every_days, 1);
        EXPECT_LE(row.every_days, 7) << lost_kg;
        EXPECT_GE(row.steps, 1);
      } else {
        EXPECT_EQ(row.runs, 0);
        EXPECT_EQ(row.run_kg, 0.0);
      }
    }
    EXPECT_LE(reaching_kg(programme), 365.0 * lost_kg) << "nothing is wasted";
    EXPECT_GE(reaching_kg(programme), 0.98 * 365.0 * lost_kg - 30.0 - 8.0) << lost_kg;
  }
}

TEST(Programme, CarriesWhatFrostKeptOffIntoTheNextHalfMonth) {
  std::vector<DayOfHeap> heap = steady(8.0, 0.0, 60);
  for (std::size_t day = 15; day < 30; ++day) heap[day].frost = true;
  Way way = four_kg_a_minute();
  const Programme programme = make_programme(filled, heap, way, 0);
  EXPECT_EQ(programme.rows[1].setting, Setting::frost);
  EXPECT_EQ(programme.rows[1].runs, 0);
  EXPECT_GT(programme.rows[2].run_kg / programme.rows[2].every_days, 12.0) << "eight a day and the lack of April";
  way.most_reaching_kg = 10.0;
  for (const Row& row : make_programme(filled, heap, way, 0).rows) {
    EXPECT_LE(row.run_reaching_kg, 10.0 * std::max(1, row.every_days));
  }
}

TEST(Programme, LeavesOutWhatRainAndRottedSolidsGive) {
  const Programme wet = make_programme(filled, steady(3.0, 8.0), four_kg_a_minute(), 0);
  EXPECT_EQ(let_out_kg(wet), 0.0);
  EXPECT_EQ(wet.rows[3].setting, Setting::enough);
  EXPECT_NEAR(wet.rows[3].rain_credited_kg, 3.0 * 15 + 3.0, 3.01) << "what it lost, and no more";
  std::vector<DayOfHeap> rotting = steady(3.0, 0.0, 90);
  for (std::size_t day = 0; day < rotting.size(); ++day) rotting[day].wanted_kg -= 3.0 * static_cast<double>(day);
  EXPECT_LE(let_out_kg(make_programme(filled, rotting, four_kg_a_minute(), 0)), 4.0);
}

TEST(Programme, SaysWhatIsDueOnADay) {
  std::vector<DayOfHeap> heap = steady(2.0, 0.0);
  for (std::size_t day = 91; day < 106; ++day) heap[day].frost = true;  // 1 to 15 July
  const Programme programme = make_programme(filled, heap, four_kg_a_minute(), 1);
  const Row* may = row_on(programme, *date::parse_iso("2027-05-20"));
  ASSERT_NE(may, nullptr);
  EXPECT_EQ(may->first, *date::parse_iso("2027-05-16"));
  EXPECT_EQ(may->every_days, 2);
  const date::Day today = *date::parse_iso("2027-05-20");
  EXPECT_TRUE(is_due(*may, today, std::nullopt));
  EXPECT_TRUE(is_due(*may, today, today - days{2}));
  EXPECT_FALSE(is_due(*may, today, today - days{1}));
  EXPECT_FALSE(is_due(*row_on(programme, *date::parse_iso("2027-07-04")), today, std::nullopt));
  EXPECT_EQ(row_on(programme, filled - days{1}), nullptr);
  EXPECT_EQ(row_on(programme, *date::parse_iso("2028-05-20")), may) << "a year on, by the calendar";
}

TEST(Programme, RefusesWhatCannotBe) {
  const auto refused = [](Way way) {
    EXPECT_THROW((void)make_programme(filled, steady(1.0, 0.0, 20), way, 0), InputError);
  };
  refused({.step_kg = 0.0});
  refused({.step_kg = 1.0, .efficiency = 0.0});
  refused({.step_kg = 1.0, .efficiency = 1.1});
  refused({.step_kg = 1.0, .leaching_share = 1.0});
  refused({.step_kg = 1.0, .leaching_share = std::nan("")});
}

TEST(Programme, SpeaksOfMinutesOrOfCans) {
  const Programme line = make_programme(filled, steady(8.0, 0.0, 40), four_kg_a_minute(), 0);
  EXPECT_EQ(setting_text(line, line.rows[1], UnitSystem::metric), "2 min daily, 8.0 L a run");
  const Programme cans = make_programme(filled, steady(5.0, 0.0, 40), {.by_hand = true, .step_kg = 10.0}, 0);
  EXPECT_EQ(setting_text(cans, cans.rows[1], UnitSystem::metric), "1 can every 2 days, 10 L a run");
  EXPECT_EQ(setting_text(cans, cans.rows[1], UnitSystem::us), "1 can every 2 days, 2.6 gal a run");
  std::vector<DayOfHeap> frozen = steady(5.0, 0.0, 15);
  for (DayOfHeap& day : frozen) day.frost = true;
  const Programme none = make_programme(filled, frozen, four_kg_a_minute(), 0);
  EXPECT_EQ(setting_text(none, none.rows[0], UnitSystem::metric), "none: frost");
  EXPECT_EQ(run_text(none, none.rows[0]), "off");
}

TEST(Programme, SetsATimerToWholeSecondsOrMinutes) {
  for (const double step_s : {20.0, 30.0, 45.0, 60.0}) {
    Way way = four_kg_a_minute();
    way.step_s = step_s;
    way.step_kg *= step_s / 60.0;
    const Programme programme = make_programme(filled, steady(7.0, 0.0, 60), way, 0);
    for (const Row& row : programme.rows) {
      EXPECT_EQ(run_text(programme, row).find('.'), std::string::npos) << run_text(programme, row);
      EXPECT_GE(row.every_days, 1);
      EXPECT_LE(row.every_days, longest_gap_days);
    }
  }
  Programme odd = make_programme(filled, steady(8.0, 0.0, 15), four_kg_a_minute(), 0);
  odd.way.step_s = 45.0;
  odd.rows[0].steps = 2;
  EXPECT_EQ(run_text(odd, odd.rows[0]), "1 min 30 s");
}

}  // namespace
}  // namespace stillheap::water
