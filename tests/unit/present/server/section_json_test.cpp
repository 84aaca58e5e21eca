#include "present/server/section_json.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace stillheap::server {
namespace {

/// A square of 2 m about the middle in four triangles, two levels, with a field that is linear in x and height. One
/// triangle, the right one, is left out as a channel would be.
forecast::Result square(bool with_right) {
  forecast::Result result;
  result.mesh.points = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {0, 0}};
  result.mesh.triangles = {{0, 1, 4}, {2, 3, 4}, {3, 0, 4}};
  if (with_right) result.mesh.triangles.push_back({1, 2, 4});
  result.mesh.levels = 2;
  forecast::Snapshot one;
  one.day = 3.0;
  one.level_m = {0.0, 1.2};
  for (const double height_m : one.level_m) {
    for (const Point& point : result.mesh.points) {
      one.temperature_c.push_back(static_cast<float>(40.0 + 10.0 * point.x_m + 5.0 * height_m));
    }
  }
  result.snapshots = {one};
  return result;
}

// Barycentric interpolation gives a linear field back exactly; whole degrees are half a degree near.
TEST(Section, IsExactForALinearField) {
  const Json section = section_json(square(true), 2.0);
  ASSERT_EQ(section.at("celsius").size(), 1U);
  const Json& rows = section.at("celsius")[0];
  ASSERT_EQ(rows.size(), 2U);
  for (std::size_t level = 0; level < 2; ++level) {
    ASSERT_EQ(rows[level].size(), section.at("x_m").size());
    for (std::size_t i = 0; i < rows[level].size(); ++i) {
      const double x_m = section.at("x_m")[i];
      const double height_m = section.at("level_m")[0][level];
      EXPECT_NEAR(rows[level][i].get<double>(), 40.0 + 10.0 * x_m + 5.0 * height_m, 0.51) << i;
    }
  }
  EXPECT_EQ(section.at("days")[0], 3.0);
}

TEST(Section, LeavesOutWhereAChannelStands) {
  const Json section = section_json(square(false), 2.0);
  const Json& row = section.at("celsius")[0][0];
  for (std::size_t i = 0; i < row.size(); ++i) {
    EXPECT_EQ(row[i].is_null(), section.at("x_m")[i].get<double>() > 0.0) << i;
  }
}

TEST(Section, OfAForecastWithoutPicturesIsEmpty) {
  EXPECT_TRUE(section_json(forecast::Result{}, 1.0).at("celsius").empty());
}

}  // namespace
}  // namespace stillheap::server
