#include "planning/plan/odds_text.hpp"

#include <gtest/gtest.h>

namespace stillheap::plan {
namespace {

using forecast::Event;
using forecast::Odds;

TEST(OddsText, SaysTenthsAndTheEnds) {
  EXPECT_EQ(odds_figure({Event::reaches_55_c, 0.7, 0.0, 0.0}), "7 in 10");
  EXPECT_EQ(odds_figure({Event::reaches_55_c, 0.06, 0.0, 0.0}), "1 in 10");
  EXPECT_EQ(odds_figure({Event::reaches_55_c, 0.0, 0.0, 0.0}), "fewer than 1 in 20");
  EXPECT_EQ(odds_figure({Event::reaches_55_c, 1.0, 0.0, 0.0}), "more than 19 in 20");
  EXPECT_EQ(odds_figure({Event::reaches_55_c, 0.949, 0.0, 0.0}), "9 in 10");
}

TEST(OddsText, SaysTheEventInTheReadersUnits) {
  const Odds hot{Event::quarter_above_55_c_for_3_days, 0.7, 0.0, 0.0};
  EXPECT_EQ(odds_text(hot, UnitSystem::metric),
            "7 in 10 that a quarter of the heap is above 55 degC for three days in a row");
  EXPECT_EQ(odds_text(hot, UnitSystem::us),
            "7 in 10 that a quarter of the heap is above 131 degF for three days in a row");
  EXPECT_EQ(odds_text({Event::heating_ends_between_days, 0.8, 99.6, 131.2}, UnitSystem::us),
            "8 in 10 that self-heating ends, so that worms can follow, between day 100 and day 131");
}

}  // namespace
}  // namespace stillheap::plan
