#include "core/base/plain_number.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace stillheap::plain {
namespace {

TEST(PlainNumber, IsWrittenWithoutAnExponentHoweverLargeOrSmall) {
  EXPECT_EQ(to_text(263.7, 2), "260");
  EXPECT_EQ(to_text(123456.0, 4), "123500");
  EXPECT_EQ(to_text(0.0000123, 2), "0.000012");
  EXPECT_EQ(decimal(1234567.0, 0), "1234567");
}

TEST(PlainNumber, HasNoMinusBeforeNothing) {
  EXPECT_EQ(decimal(-0.04, 1), "0.0");
  EXPECT_EQ(decimal(-0.06, 1), "-0.1");
  EXPECT_EQ(to_text(0.0, 3), "0");
}

TEST(PlainNumber, SaysInWordsWhatIsNoNumber) {
  EXPECT_EQ(to_text(std::numeric_limits<double>::quiet_NaN(), 3), "unknown");
  EXPECT_EQ(decimal(std::numeric_limits<double>::infinity(), 1), "unbounded");
}

}  // namespace
}  // namespace stillheap::plain
