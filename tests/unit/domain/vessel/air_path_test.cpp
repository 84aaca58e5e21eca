#include "domain/vessel/air_path.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

/// Distance to the nearest boundary by its definition, written apart from the library; negative outside.
double plan_distance_m(const Design& design, Point p) {
  double wall = 0.0;
  if (design.footprint == Footprint::round) {
    wall = design.diameter_m / 2.0 - std::hypot(p.x_m, p.y_m);
  } else {
    wall = std::min(design.length_m / 2.0 - std::abs(p.x_m), design.width_m / 2.0 - std::abs(p.y_m));
  }
  if (wall < -1e-9) return -1.0;
  double nearest = design.wall == Wall::open ? wall : std::numeric_limits<double>::infinity();
  for (const Channel& c : design.channels) nearest = std::min(nearest, distance_m(p, c.centre) - c.diameter_m / 2.0);
  return nearest;
}

/// Greatest distance over a square grid and, for closed walls, over points of the wall.
double sampled_m(const Design& design, double step) {
  const double half_x = (design.footprint == Footprint::round ? design.diameter_m : design.length_m) / 2.0;
  const double half_y = (design.footprint == Footprint::round ? design.diameter_m : design.width_m) / 2.0;
  double most = 0.0;
  const int along = static_cast<int>(2.0 * half_x / step);
  const int across = static_cast<int>(2.0 * half_y / step);
  for (int i = 0; i <= along; ++i) {
    for (int j = 0; j <= across; ++j)
      most = std::max(most, plan_distance_m(design, {i * step - half_x, j * step - half_y}));
  }
  const int around = static_cast<int>(8.0 * std::max(half_x, half_y) / step);
  for (int i = 0; i < around; ++i) {
    const double turn = 2.0 * constant::pi * i / around;
    Point p{half_x * std::cos(turn), half_x * std::sin(turn)};
    if (design.footprint == Footprint::rectangular) {
      const double reach = 1.0 / std::max(std::abs(std::cos(turn)) / half_x, std::abs(std::sin(turn)) / half_y);
      p = {reach * std::cos(turn), reach * std::sin(turn)};
    }
    most = std::max(most, plan_distance_m(design, p));
  }
  return most;
}

Design random_design(std::mt19937& random, Footprint footprint, Wall wall, bool same_width) {
  const auto uniform = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  Design design;
  design.footprint = footprint;
  design.wall = wall;
  design.diameter_m = uniform(0.6, 2.0);
  design.length_m = uniform(0.6, 2.5);
  design.width_m = uniform(0.6, 1.5);
  design.height_m = design.fill_height_m = 20.0;
  const int count = std::uniform_int_distribution<int>(wall == Wall::closed ? 1 : 0, 12)(random);
  for (int i = 0; i < count; ++i) {
    const double reach = 0.55;  // some stand on the wall or beyond it
    const double diameter = same_width ? 0.1 : uniform(0.02, 0.3);
    const Point centre =
        footprint == Footprint::round
            ? Point{uniform(-reach, reach) * design.diameter_m, uniform(-reach, reach) * design.diameter_m}
            : Point{uniform(-reach, reach) * design.length_m, uniform(-reach, reach) * design.width_m};
    design.channels.push_back({centre, diameter});
  }
  return design;
}

void compare_with_samples(Footprint footprint, Wall wall, bool same_width) {
  std::mt19937 random(20240501U + (same_width ? 1U : 0U));
  const double step = 0.008;
  for (int trial = 0; trial < 60; ++trial) {
    const Design design = random_design(random, footprint, wall, same_width);
    const AirPath path = longest_air_path(design);
    const double sampled = sampled_m(design, step);
    EXPECT_LE(sampled, path.plan_length_m + 1e-9) << "trial " << trial;
    // A grid point lies within step / sqrt(2) of the peak and the distance has slope 1.
    EXPECT_LE(path.plan_length_m - sampled, step) << "trial " << trial;
    EXPECT_NEAR(plan_distance_m(design, path.where), path.plan_length_m, 1e-8) << "trial " << trial;
  }
}

TEST(AirPath, BoundsSamplesOfRoundOpenVesselsTightly) {
  compare_with_samples(Footprint::round, Wall::open, true);
  compare_with_samples(Footprint::round, Wall::open, false);
}
TEST(AirPath, BoundsSamplesOfRoundClosedVesselsTightly) {
  compare_with_samples(Footprint::round, Wall::closed, true);
  compare_with_samples(Footprint::round, Wall::closed, false);
}
TEST(AirPath, BoundsSamplesOfRectangularOpenVesselsTightly) {
  compare_with_samples(Footprint::rectangular, Wall::open, true);
  compare_with_samples(Footprint::rectangular, Wall::open, false);
}
TEST(AirPath, BoundsSamplesOfRectangularClosedVesselsTightly) {
  compare_with_samples(Footprint::rectangular, Wall::closed, true);
  compare_with_samples(Footprint::rectangular, Wall::closed, false);
}

Design round_open(double diameter_m, double height_m) {
  Design design;
  design.diameter_m = diameter_m;
  design.height_m = design.fill_height_m = height_m;
  return design;
}

TEST(AirPath, OfSymmetricPatternsBoundsSamplesToo) {
  for (const Wall wall : {Wall::open, Wall::closed}) {
    for (int count = 1; count <= 9; ++count) {
      Design design = round_open(1.3, 20.0);
      design.wall = wall;
      design.channels = ring_channels({count, 0.35, 0.2}, 0.1, count % 2 == 0);
      const double sampled = sampled_m(design, 0.004);
      const double exact = longest_air_path(design).plan_length_m;
      EXPECT_LE(sampled, exact + 1e-9) << count;
      EXPECT_LE(exact - sampled, 0.004) << count;
    }
  }
}

TEST(AirPath, OfALowVesselIsHalfItsHeightOverAnOpenBase) {
  Design design = round_open(3.0, 1.0);
  AirPath path = longest_air_path(design);
  EXPECT_DOUBLE_EQ(path.length_m, 0.5);
  EXPECT_DOUBLE_EQ(path.plan_length_m, 1.5);
  EXPECT_DOUBLE_EQ(path.height_m, 0.5);
  EXPECT_TRUE(path.limited_by_height);
  design.base_open = false;
  path = longest_air_path(design);
  EXPECT_DOUBLE_EQ(path.length_m, 1.0);
  EXPECT_DOUBLE_EQ(path.height_m, 0.0);
}

TEST(AirPath, OfATightVesselWithoutChannelsIsItsHeight) {
  Design design = round_open(1.0, 1.2);
  design.wall = Wall::closed;
  const AirPath path = longest_air_path(design);
  EXPECT_TRUE(std::isinf(path.plan_length_m));
  EXPECT_DOUBLE_EQ(path.length_m, 0.6);
  EXPECT_TRUE(path.limited_by_height);
}

TEST(AirPath, RunsAcrossTheMiddleFromASingleChannelOffCentre) {
  // |p| + |p - c| = R + r on the far side: (R - r + |c|) / 2.
  Design design = round_open(1.0, 10.0);
  design.channels = {{{0.2, 0.1}, 0.1}};
  EXPECT_NEAR(longest_air_path(design).plan_length_m, (0.5 - 0.05 + std::hypot(0.2, 0.1)) / 2.0, 1e-12);
}

TEST(AirPath, IgnoresAChannelInsideAnother) {
  Design design = round_open(1.0, 10.0);
  design.channels = {{{0.0, 0.0}, 0.3}};
  const double alone = longest_air_path(design).plan_length_m;
  design.channels.push_back({{0.01, 0.0}, 0.1});
  EXPECT_DOUBLE_EQ(longest_air_path(design).plan_length_m, alone);
}

}  // namespace
}  // namespace stillheap::vessel
