#include "planning/plan/programmes.hpp"

#include <gtest/gtest.h>

#include <chrono>

#include "model/forecast/ensemble.hpp"
#include "model/forecast/prior.hpp"
#include "yard.hpp"

/// The page must never wait for a forecast; the command line may.
namespace stillheap::plan {
namespace {

const Filling filled{"2025-04-01", {}, {}};
const Filling later{"2025-04-04", {}, {}};

TEST(Programmes, AreThereAtOnceOrSaidNotToBeAndThenTheSameAsThoseWaitedFor) {
  site::Site site = test::small_yard();
  site.forecast_days = 20;
  Programmes behind(site);
  const auto begin = std::chrono::steady_clock::now();
  const water::Programme* ready = behind.ready(site.vessels[0], filled);
  EXPECT_EQ(ready, nullptr);
  for (int i = 0; i < 6000 && ready == nullptr; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
    ready = behind.ready(site.vessels[0], later);
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

TEST(Programmes, OfAFillingThatLearnedFromItsReadingsAreItsOwn) {
  site::Site site = test::small_yard();
  site.forecast_days = 30;
  Programmes programmes(site);
  const water::Programme& shared = programmes.of(site.vessels[0], filled);
  Filling taught = filled;
  std::vector<double> hotter(forecast::input_count(), 0.0);
  hotter[forecast::input_parameters + forecast::row_of_learned(0)] = 2.5;  // decays faster
  taught.own = {{hotter}, 1.0};
  const water::Programme& own = programmes.of(site.vessels[0], taught);
  EXPECT_NE(&own, &shared);
  EXPECT_GT(own.rows.front().lost_kg, 1.05 * shared.rows.front().lost_kg);
  EXPECT_EQ(&programmes.of(site.vessels[0], filled), &shared) << "others keep theirs";
}

}  // namespace
}  // namespace stillheap::plan
