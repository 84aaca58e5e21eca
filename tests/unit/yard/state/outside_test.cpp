#include "yard/state/outside.hpp"

#include <gtest/gtest.h>

#include "rows.hpp"

namespace stillheap::yard {
namespace {

// A state is asked for each time somebody looks at the yard: its weather takes 50 times as long as all else of it.
TEST(Setting, WorksOutTheAirOfTheYearOnceForAllHeaps) {
  site::Site site = site::read_site(STILLHEAP_SOURCE_DIR "/examples/common-round-us/site.toml");
  const Setting setting(&site);
  const auto today_c = [](const Setting& one) {
    return outside_of(one, test::at("2026-03-02T08:00Z"), test::at("2026-07-15T08:00Z")).today_c.value();
  };
  const double before_c = today_c(setting);
  for (double& low : site.weather.monthly.low_c) low += 10.0;
  for (double& high : site.weather.monthly.high_c) high += 10.0;
  EXPECT_EQ(today_c(setting), before_c);
  EXPECT_NEAR(today_c(Setting(&site)), before_c + 10.0, 0.5);
}

TEST(Setting, WithoutASiteHasNoAir) {
  const Setting none = nullptr;
  EXPECT_FALSE(outside_of(none, test::at("2026-03-02T08:00Z"), test::at("2026-07-15T08:00Z")).today_c.has_value());
}

}  // namespace
}  // namespace stillheap::yard
