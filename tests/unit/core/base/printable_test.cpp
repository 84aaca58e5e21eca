#include "core/base/printable.hpp"

#include <gtest/gtest.h>

namespace stillheap {
namespace {

TEST(Printable, LeavesTextAsItIs) {
  for (const char* const text : {"yard.toml:14: = \"24 in\"; use less\nnext", "caf\u00e9 \u20ac \U0001F331", ""}) {
    EXPECT_EQ(printable(text), text);
  }
}

// ESC ] 0 ; ... BEL sets a terminal's title. Source: ECMA-48 (control functions), from memory.
TEST(Printable, ShowsControlSignsAndWhatIsNoTextAsNumbers) {
  EXPECT_EQ(printable("a\x1b]0;gone\x07 z"), "a\\x1b]0;gone\\x07 z");
  EXPECT_EQ(printable("\xc2\x9b"
                      "2J"),
            "\\xc2\\x9b2J")
      << "the one-byte form of ESC [";
  EXPECT_EQ(printable("\xff\xfe\r"), "\\xff\\xfe\\x0d");
  EXPECT_EQ(printable("\xe2\x82"), "\\xe2\\x82") << "cut in the middle";
  EXPECT_EQ(printable("\xc0\xaf \xed\xa0\x80 \xf5\x80\x80\x80"), "\\xc0\\xaf \\xed\\xa0\\x80 \\xf5\\x80\\x80\\x80");
}

TEST(Printable, IsCut) { EXPECT_EQ(printable(std::string(100, 'a'), 10), std::string(10, 'a') + " ..."); }

}  // namespace
}  // namespace stillheap
