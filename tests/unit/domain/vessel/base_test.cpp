#include "domain/vessel/base.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/constants.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/loads.hpp"

namespace stillheap::vessel {
namespace {

constexpr double inch_m = 0.0254;
constexpr double psf_pa = 47.88026;

/// The common round vessel of the examples, slats laid as its site file has them.
Design common_ring() {
  Design design;
  design.diameter_m = ring_diameter_m(150.0 * inch_m);
  design.height_m = design.panel_width_m = 60.0 * inch_m;
  design.fill_height_m = 58.0 * inch_m;
  design.base_gap_m = 3.5 * inch_m;
  design.channels = ring_channels({5, 12.0 * inch_m, 0.0}, 4.0 * inch_m, true);
  for (int i = 0; i < 8; ++i) {
    design.slats.push_back(strip_across(design, true, ((i + 0.5) / 8 - 0.5) * design.diameter_m, 2.5 * inch_m));
  }
  return design;
}

Design bin() {
  Design design;
  design.footprint = Footprint::rectangular;
  design.length_m = 2.4;
  design.width_m = 1.2;
  design.height_m = design.fill_height_m = 1.2;
  design.base_gap_m = 0.15;
  for (const double x : {-1.0, -0.6, -0.2, 0.2, 0.6, 1.0}) {
    for (const double y : {-0.4, 0.0, 0.4}) design.channels.push_back({{x, y}, 0.11});
  }
  for (int i = 0; i < 12; ++i) design.slats.push_back(strip_across(design, false, -1.1 + 0.2 * i, 0.07));
  return design;
}

TEST(Base, KeepsBearersClearOfEveryHole) {
  for (const Design& plain : {common_ring(), bin()}) {
    const Design design = with_base(plain, {});
    ASSERT_GE(design.bearers.size(), 3U);
    for (const Channel& channel : design.channels) EXPECT_EQ(covered_by_bearers(design, channel), 0.0);
    const std::vector<double> places = bearer_places_m(design);
    for (std::size_t i = 1; i < places.size(); ++i) EXPECT_LE(places[i] - places[i - 1], 0.6 + 1e-9);
    EXPECT_NEAR(places.front(), 0.0225, 1e-12) << "flush with the edge";
  }
}

TEST(Base, TellsTheShareThatABearerCoversWhereNoPlaceIsClear) {
  Design design = bin();
  design.channels.clear();
  // Holes shoulder to shoulder along the bearers' run: nowhere to stand between them.
  for (int i = 0; i < 24; ++i) design.channels.push_back({{-1.15 + 0.1 * i, 0.0}, 0.1});
  for (Slat& slat : design.slats) slat = strip_across(design, true, 0.0, 0.07);
  design = with_base(design, {});
  const double covered =
      std::accumulate(design.channels.begin(), design.channels.end(), 0.0,
                      [&](double sum, const Channel& one) { return sum + covered_by_bearers(design, one); });
  EXPECT_GT(covered, 0.1);
  const std::vector<Clash> clashes = find_clashes(design);  // the holes clash with one another too
  EXPECT_TRUE(std::any_of(clashes.begin(), clashes.end(), [](const Clash& clash) {
    return clash.kind == ClashKind::channel_and_bearer && !clash.refused && clash.covered_share > 0.0;
  }));
}

TEST(Base, CutsBearersOfARoundVesselToTheWall) {
  const Design design = with_base(common_ring(), {});
  const double radius = 0.5 * design.diameter_m;
  for (const Slat& bearer : design.bearers) {
    const double inner = std::max(0.0, std::abs(bearer.from.x_m) - 0.5 * bearer.width_m);
    EXPECT_NEAR(distance_m(bearer.from, bearer.to), 2.0 * std::sqrt(radius * radius - inner * inner), 1e-12);
  }
}

TEST(Base, PressureUnderBearersCarriesTheWholeWeight) {
  // Rectangular by hand: five bearers at 0.58875 m, an inner one presses that over its width.
  Design crate = bin();
  crate.channels.clear();
  crate.slats.clear();  // then they run along x
  crate = with_base(crate, {});
  ASSERT_EQ(crate.bearers.size(), 5U);
  EXPECT_NEAR(bearer_over_mean(crate), 0.58875 / 0.045, 0.1) << "places lie on a grid of 5 mm";
  // Round: what the bearers press on their own areas adds up to the footprint.
  const Design ring = with_base(common_ring(), {});
  EXPECT_GT(bearer_over_mean(ring), footprint_area_m2(ring) / (4.0 * 0.045 * ring.diameter_m));
}

TEST(Base, TakesAsManyBearersAsTheGroundAsksFor) {
  // As drawn before: 1 1/2 in bearers at 20 1/2 in pressed 1,634 lb/ft2 on ground allowed 1,500.
  BearerWish wish;
  wish.width_m = 1.5 * inch_m;
  wish.mean_pressure_pa = 119.5 * psf_pa;
  wish.ground_bears_pa = 1500.0 * psf_pa;
  const Design design = with_base(common_ring(), wish);
  EXPECT_LE(wish.mean_pressure_pa * bearer_over_mean(design), wish.ground_bears_pa);
  wish.ground_bears_pa = 700.0 * psf_pa;
  const Design soft = with_base(common_ring(), wish);
  EXPECT_GT(soft.bearers.size(), design.bearers.size());
}

TEST(Base, LoadsReadTheBearersThatAreLaid) {
  const Design design = with_base(common_ring(), {.width_m = 0.1});
  const Loads loads = loads_of(design, 500.0);
  EXPECT_EQ(loads.ground.bearers, static_cast<int>(design.bearers.size()));
  EXPECT_EQ(loads.ground.bearer_width_m, 0.1);
  EXPECT_NEAR(loads.ground.bearer_pressure_pa, loads.ground_pressure_pa * bearer_over_mean(design), 1e-9);
}

TEST(Seats, CarrySlatsThatAHoleCutsThrough) {
  Design design = bin();
  design.slats = {strip_across(design, false, 0.0, 0.089), strip_across(design, false, 0.15, 0.089),
                  strip_across(design, false, -0.15, 0.089)};
  design.channels = {{{0.0, 0.0}, 0.1016}};  // 4 in through a slat of 3 1/2 in
  const std::vector<Seat> seats = seats_of(design);
  ASSERT_EQ(seats.size(), 1U);
  EXPECT_EQ(seats[0].slats_cut, 1);
  EXPECT_FALSE(seats[0].short_of);
  // It laps 40 mm of the neighbours, whose edges begin 0.15 - 0.0445 off the middle.
  EXPECT_NEAR(seats[0].board.right_m, 0.15 - 0.0445 + seat_lap_m, 1e-12);
}

TEST(Seats, BridgeAGapThatAFormWouldFallThrough) {
  const std::vector<Seat> seats = seats_of(with_base(bin(), {}));
  EXPECT_EQ(seats.size(), 18U) << "all 18 holes lie in gaps of 130 mm";
  for (const Seat& seat : seats) EXPECT_EQ(seat.slats_cut, 0);
}

TEST(Seats, AreNotNeededWhereTheSlatStaysWhole) {
  Design design = bin();
  design.slats = {strip_across(design, false, 0.0, 0.16)};
  design.channels = {{{0.0, 0.0}, 0.1}};
  EXPECT_TRUE(seats_of(design).empty());
  design.channels = {{{0.02, 0.0}, 0.1}};
  EXPECT_EQ(seats_of(design).size(), 1U) << "10 mm are left on one side";
  EXPECT_TRUE(seats_of(design).front().short_of) << "and no slat on the other";
}

TEST(Stops, CoverASmallShareAndFormsReachThem) {
  const Design design = with_base(common_ring(), {});
  // A strip through the middle of a disc: close to width times diameter.
  EXPECT_NEAR(covered_by_stop(design.channels.front()), stop_rod_m * 0.1016 / (constant::pi / 4.0 * 0.1016 * 0.1016),
              1e-3);
  EXPECT_GT(design.channels.front().base_covered_share, 0.0);
  EXPECT_NEAR(form_length_m(design), 60.0 * inch_m + 0.3 + deck_thickness_m, 1e-12);
}

}  // namespace
}  // namespace stillheap::vessel
