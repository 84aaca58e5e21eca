#include "model/forecast/band.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "model/forecast/discrepancy.hpp"
#include "model/forecast/odds.hpp"

namespace stillheap::forecast {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

RunHistory run_with(double peak_c, double lowest_oxygen, double share_3_days, double cool_day) {
  RunHistory run;
  run.peak_c = peak_c;
  run.lowest_oxygen = lowest_oxygen;
  run.share_3_days = share_3_days;
  run.heat_ended = cool_day > 0.0;
  run.heat_end_day = cool_day;
  return run;
}

TEST(Band, IsInOrderWhateverComesIn) {
  std::mt19937 generator(1);
  std::uniform_real_distribution<double> any(-120.0, 120.0);
  const Kind kinds[] = {plain_kind, share_kind, peak_kind, average_kind, days_kind, loss_kind, oxygen_kind};
  for (int n = 0; n < 2000; ++n) {
    const Kind& kind = kinds[n % 7];
    std::vector<double> members(static_cast<std::size_t>(n % 5));
    for (double& member : members) member = n % 11 == 0 ? nan : n % 13 == 0 ? -endless : any(generator);
    const double line = std::clamp(any(generator), kind.least, kind.most);
    const Banded band =
        band_around(line, n % 17 == 0 ? nan : any(generator), members, kind, n % 2 == 0 ? Grid::draft : Grid::standard);
    EXPECT_EQ(band.middle, line);
    EXPECT_LE(band.low, line);
    EXPECT_GE(band.high, line);
    EXPECT_GE(band.low, kind.least);
    EXPECT_LE(band.high, kind.most);
  }
}

TEST(Band, ReachesToAMiddleThatLiesOutsideTheMembers) {
  const Banded band = band_around(10.0, 10.0, {1.0, 2.0, 3.0}, plain_kind, Grid::standard);
  EXPECT_EQ(band.high, 10.0);
  EXPECT_LT(band.low, 3.0);
}

TEST(Band, PutsEndsThatChangedPlacesInOrder) {
  const Banded band = in_order(2.0, 5.0, 1.0);
  EXPECT_EQ(band.low, 1.0);
  EXPECT_EQ(band.high, 5.0);
  EXPECT_EQ(in_order(7.0, 5.0, 1.0).high, 7.0);
}

// 1.2816 standard deviations to either side hold 80 %.
TEST(Band, OfEqualMembersHasTheWidthOfTheDiscrepancy) {
  const std::vector<double> members(8, 60.0);
  const Banded peak = band_around(60.0, 60.0, members, peak_kind, Grid::standard);
  EXPECT_NEAR(peak.high - 60.0, 1.2816 * discrepancy.peak_k, 1e-9);
  EXPECT_NEAR(60.0 - peak.low, 1.2816 * discrepancy.peak_k, 1e-9);
  const Banded day = band_around(10.0, 10.0, members, days_kind, Grid::standard);
  EXPECT_GT(day.high, 10.0);
  EXPECT_NEAR(band_around(0.2, 0.2, std::vector<double>(8, 0.2), loss_kind, Grid::standard).high,
              0.2 * std::pow(discrepancy.loss_factor, 1.2816), 1e-9);
}

TEST(Band, OfTheDraftGridReachesToLessOxygenThanThatGridShows) {
  const std::vector<double> members(8, 0.07);
  const double draft = band_around(0.07, 0.07, members, oxygen_kind, Grid::draft).low;
  const double standard = band_around(0.07, 0.07, members, oxygen_kind, Grid::standard).low;
  EXPECT_LT(draft, standard);
  EXPECT_LT(draft, 0.05);  // the alarm of a heap that falls to 2 % on the standard grid
}

TEST(OddsOf, CountMembersAndAreNoneWithoutThem) {
  const RunHistory middle = run_with(60.0, 0.12, 0.5, 100.0);
  EXPECT_TRUE(odds_of({middle, middle, {}}).empty());
  std::vector<RunHistory> members;
  for (int n = 0; n < 10; ++n) members.push_back(run_with(60.0, 0.12, n < 7 ? 0.5 : 0.1, n < 8 ? 100.0 : 0.0));
  const std::vector<Odds> odds = odds_of({middle, middle, members});
  ASSERT_EQ(odds.size(), 5U);
  EXPECT_EQ(odds[1].event, Event::quarter_above_55_c_for_3_days);
  EXPECT_EQ(in_ten(odds[1]), 7);
  EXPECT_EQ(odds[4].event, Event::heating_ends_between_days);
  EXPECT_LT(odds[4].from_day, 100.0);
  EXPECT_GT(odds[4].to_day, 100.0);
  EXPECT_GT(odds[4].share, 0.5);
  EXPECT_LE(odds[4].share, 0.8);  // two in ten never cool
  for (const Odds& one : odds) {
    EXPECT_GE(one.share, 0.0);
    EXPECT_LE(one.share, 1.0);
  }
}

TEST(OddsOf, HaveNoEndOfHeatingWhereThereIsNone) {
  const RunHistory middle = run_with(60.0, 0.12, 0.5, 0.0);
  EXPECT_EQ(odds_of({middle, middle, {middle, middle}}).size(), 4U);
}

TEST(OddsOf, PeaksSpreadByTheDiscrepancy) {
  const RunHistory middle = run_with(70.0, 0.12, 0.5, 0.0);
  const std::vector<RunHistory> members(20, middle);
  const std::vector<Odds> odds = odds_of({middle, middle, members});
  EXPECT_NEAR(odds[2].share, 0.5, 0.12);  // as likely above 70 degC as below
  EXPECT_EQ(odds[0].share, 1.0);
}

TEST(Band, OfAHeapThatLearnedFromItsReadingsIsAsWideAsTheseLeaveIt) {
  const std::vector<double> members(9, 60.0);
  OwnReadings own{{{0.0}}, 2.5};
  const Banded peak = band_around(60.0, 60.0, members, peak_kind, Grid::standard, discrepancy_of(own));
  EXPECT_NEAR(peak.high - 60.0, 1.2816 * 2.5, 0.01);
  own.misfit_k = 0.1;
  EXPECT_EQ(discrepancy_of(own).peak_k, discrepancy.average_k) << "no less than averages miss by";
  EXPECT_EQ(discrepancy_of({}).peak_k, discrepancy.peak_k);
}

}  // namespace
}  // namespace stillheap::forecast
