#include "domain/limits/limits.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace stillheap::limits {
namespace {

TEST(Limits, HaveNamesOfTheirOwnEndsInOrderAndAReason) {
  std::set<std::string_view> names;
  for (const Limit* one : all()) {
    EXPECT_TRUE(names.insert(one->name).second) << one->name;
    EXPECT_LT(least(*one), most(*one)) << one->name;
    EXPECT_FALSE(one->why.empty()) << one->name;
  }
}

TEST(Limits, HoldTheirEndsAndNothingBeyond) {
  EXPECT_TRUE(holds(diameter, 6.0));
  EXPECT_FALSE(holds(diameter, 6.001));
  EXPECT_TRUE(holds(ring_radius, 1e-6));
  EXPECT_FALSE(holds(ring_radius, 0.0)) << "a ring without radius is no ring";
  EXPECT_FALSE(holds(probe_angle, 1e300));
  EXPECT_FALSE(holds(diameter, std::nan("")));
}

TEST(Limits, AreSaidInTheUnitsOfTheReader) {
  EXPECT_EQ(allowed(diameter), "0.3 m to 6 m");
  EXPECT_EQ(allowed(ring_radius), "above 0 m to 10 m");
  EXPECT_EQ(allowed(diameter, UnitSystem::us).find(" m"), std::string::npos) << allowed(diameter, UnitSystem::us);
  EXPECT_EQ(allowed(forecast_days, UnitSystem::us), "1 to 540");
}

}  // namespace
}  // namespace stillheap::limits
