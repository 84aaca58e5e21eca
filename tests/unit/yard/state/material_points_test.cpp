#include "yard/state/material_points.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/base/constants.hpp"
#include "rows.hpp"

namespace stillheap::yard {
namespace {

TEST(MaterialPoints, FillTheMaterialAndNothingElse) {
  const vessel::Design design = test::design();
  const auto points = material_points(design);
  const double box_m3 = 1.2 * 1.2 * 1.2;
  const double piece_m3 = box_m3 / 60000.0;
  EXPECT_NEAR(static_cast<double>(points.size()) * piece_m3, vessel::material_volume_m3(design),
              0.02 * vessel::material_volume_m3(design));
  for (const insight::MaterialPoint& point : points) {
    ASSERT_GT(distance_m(point.plan, {0.3, 0.0}), 0.05);
    ASSERT_LT(std::hypot(point.plan.x_m, point.plan.y_m), 0.6);
  }
}

TEST(MaterialPoints, AreNoneWithoutASize) { EXPECT_TRUE(material_points({}).empty()); }

TEST(MaterialPoints, FollowARectangle) {
  vessel::Design design;
  design.footprint = vessel::Footprint::rectangular;
  design.length_m = 2.0;
  design.width_m = 1.0;
  design.fill_height_m = 1.0;
  EXPECT_NEAR(to_face_m(design, {0.9, 0.0}, 0.5), 0.1, 1e-12);
  EXPECT_NEAR(to_face_m(design, {0.0, 0.3}, 0.5), 0.2, 1e-12);
  EXPECT_LT(to_face_m(design, {1.1, 0.0}, 0.5), 0.0);
}

TEST(ToFace, KnowsWallTopBaseAndChannel) {
  const vessel::Design design = test::design();
  EXPECT_NEAR(to_face_m(design, {-0.5, 0.0}, 0.6), 0.1, 1e-12) << "wall";
  EXPECT_NEAR(to_face_m(design, {-0.1, 0.0}, 1.15), 0.05, 1e-12) << "top";
  EXPECT_NEAR(to_face_m(design, {-0.1, 0.0}, 0.07), 0.07, 1e-12) << "base";
  EXPECT_NEAR(to_face_m(design, {0.1, 0.0}, 0.6), 0.15, 1e-12) << "channel";
}

TEST(ProbePoint, NeedsRadiusAndHeight) {
  insight::Spot spot;
  spot.name = "core";
  EXPECT_FALSE(probe_point(test::design(), spot).has_value());
  spot.radius_m = 0.0;
  EXPECT_FALSE(probe_point(test::design(), spot).has_value());
  spot.depth_m = 0.5;
  ASSERT_TRUE(probe_point(test::design(), spot).has_value());
  EXPECT_NEAR(probe_point(test::design(), spot)->height_m, 0.7, 1e-12) << "depth counts from the top of the fill";
  spot.radius_m = 0.7;
  EXPECT_FALSE(probe_point(test::design(), spot).has_value()) << "outside the cage";
}

TEST(ProbePoint, WithoutAngleIsTakenWhereItLiesDeepest) {
  insight::Spot spot;
  spot.radius_m = 0.3;
  spot.height_m = 0.6;
  EXPECT_NEAR(probe_point(test::design(), spot)->to_face_m, 0.3, 1e-9) << "away from the channel";
  spot.angle_rad = 0.25 * constant::pi;
  EXPECT_LT(probe_point(test::design(), spot)->to_face_m, 0.2);
}

}  // namespace
}  // namespace stillheap::yard
