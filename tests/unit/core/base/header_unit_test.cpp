#include "core/base/header_unit.hpp"

#include <gtest/gtest.h>

namespace stillheap {
namespace {

TEST(HeaderUnit, StandsInBracketsOrBehindTheLastBlank) {
  EXPECT_EQ(header_unit("Tair [degF]"), "degF");
  EXPECT_EQ(header_unit("Core (F) "), "F");
  EXPECT_EQ(header_unit("core_degC"), "degC");
  EXPECT_EQ(header_unit("core degC"), "degC");
}

TEST(HeaderUnit, IsNotASingleLetterWithoutBrackets) {
  EXPECT_EQ(header_unit("Sensor F"), "");
  EXPECT_EQ(header_unit("T1"), "");
  EXPECT_EQ(header_unit(""), "");
  EXPECT_EQ(header_unit("[]"), "");
}

}  // namespace
}  // namespace stillheap
