#include "planning/plan/programmes.hpp"

#include <gtest/gtest.h>

#include <chrono>

#include "yard.hpp"

/// The page must never wait for a forecast; the command line may.
namespace stillheap::plan {
namespace {

const date::Day filled = *date::parse_iso("2025-04-01");

TEST(Programmes, AreThereAtOnceOrSaidNotToBeAndThenTheSameAsThoseWaitedFor) {
  site::Site site = test::small_yard();
  site.forecast_days = 20;
  Programmes behind(site);
  const auto begin = std::chrono::steady_clock::now();
  const water::Programme* ready = behind.ready(site.vessels[0], filled);
  EXPECT_EQ(ready, nullptr);
  for (int i = 0; i < 6000 && ready == nullptr; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
    ready = behind.ready(site.vessels[0], filled + std::chrono::days{3});
  }
  ASSERT_NE(ready, nullptr) << "after " << (std::chrono::steady_clock::now() - begin).count() << " ns";
  Programmes waited(site);
  EXPECT_EQ(waited.of(site.vessels[0], filled).reaching_kg, ready->reaching_kg);
}

TEST(Programmes, TellThatASiteCannotBePlannedFromBothDoors) {
  site::Site site = test::small_yard();
  site.forecast_days = 20;
  site.water.application_efficiency = 0.0;
  Programmes programmes(site);
  EXPECT_THROW((void)programmes.of(site.vessels[0], filled), InputError);
  EXPECT_THROW((void)programmes.ready(site.vessels[0], filled), InputError);
}

TEST(Programmes, EndAtOnceWhenNobodyWantsThemAnyMore) {
  Programmes programmes(test::small_yard());
  EXPECT_EQ(programmes.ready(programmes.site().vessels[0], filled), nullptr);
}

}  // namespace
}  // namespace stillheap::plan
