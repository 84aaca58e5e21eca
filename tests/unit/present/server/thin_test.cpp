#include "present/server/thin.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>

namespace stillheap::server {
namespace {

TEST(Thin, KeepsShortSeriesWhole) {
  const std::array<double, 3> values{1.0, 3.0, 2.0};
  EXPECT_EQ(thin(values, 3), (std::vector<std::size_t>{0, 1, 2}));
}

TEST(Thin, KeepsTheHighestAndTheLowestOfEachRunInOrder) {
  std::vector<double> values(10000, 50.0);
  values[1234] = 71.0;
  values[7001] = 3.0;
  const std::vector<std::size_t> kept = thin(values, 100);
  EXPECT_LE(kept.size(), 100U);
  EXPECT_TRUE(std::is_sorted(kept.begin(), kept.end()));
  for (const std::size_t wanted : {1234U, 7001U}) EXPECT_EQ(std::count(kept.begin(), kept.end(), wanted), 1) << wanted;
}

}  // namespace
}  // namespace stillheap::server
