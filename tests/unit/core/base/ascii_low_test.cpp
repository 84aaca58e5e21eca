#include "core/base/ascii_low.hpp"

#include <gtest/gtest.h>

namespace stillheap {
namespace {

TEST(AsciiLow, TakesAToZAndNoOtherByte) {
  EXPECT_EQ(ascii_low("Content-LENGTH 09 @[`{"), "content-length 09 @[`{");
  EXPECT_EQ(ascii_low("\xC3\x84pfel"), "\xC3\x84pfel");
  for (int byte = 0; byte < 256; ++byte) {
    const bool capital = byte >= 'A' && byte <= 'Z';
    EXPECT_EQ(ascii_low(static_cast<char>(byte)), static_cast<char>(capital ? byte + 32 : byte)) << byte;
  }
}

}  // namespace
}  // namespace stillheap
