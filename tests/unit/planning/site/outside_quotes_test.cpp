#include "planning/site/outside_quotes.hpp"

#include <gtest/gtest.h>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "support.hpp"

namespace stillheap::site {
namespace {

TEST(OutsideQuotes, SignsBeyondAsciiMayStandInQuotesAndComments) {
  EXPECT_FALSE(find_stray_sign("\xEF\xBB\xBFname = \"Gr\xC3\xBCn\" # \xC3\xBC\nother = '\xC3\xBC'\n"));
  EXPECT_FALSE(find_stray_sign("a = \"\"\"\n\xC3\xBC \\\"\"\" \xC3\xBC\"\"\"\nb = '''\n\xC3\xBC'''\n"));
  EXPECT_FALSE(find_stray_sign("a = \"\\\\\"\nb = \"\xC3\xBC\"\n"));
}

TEST(OutsideQuotes, AStraySignIsFoundWithItsLine) {
  const auto found = find_stray_sign("a = \"\xC3\xBC\"\nb = 3\xC2\xB5\n");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->line, 2);
  EXPECT_EQ(found->sign, "\xC2\xB5");
  EXPECT_TRUE(find_stray_sign("a = \"not closed\n\xC3\xBC"));
  EXPECT_TRUE(find_stray_sign("\xC3"));
}

TEST(OutsideQuotes, TheReaderSaysWhereTheSignStands) {
  const test::Folder folder;
  const auto file = folder.write("site.toml", "[site]\nname = \"a\"\nh\xC3\xB6he = 1\n");
  try {
    (void)read_site(file);
    FAIL() << "it was taken";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find(":3"), std::string::npos) << error.what();
    EXPECT_NE(std::string(error.what()).find("outside quotes"), std::string::npos) << error.what();
  }
}

// Of these the TOML library asserts that they cannot be; found by fuzzing. They are told all the same.
TEST(OutsideQuotes, ASectionOrAKeyWithNothingBehindItIsToldWithItsLine) {
  const test::Folder folder;
  for (const char* text : {"\n[# a\nx = 1\n", "\n[.a]\n", "\nx = # of what\n", "\nx = ]\n", "\nx = [1, }\n"}) {
    try {
      (void)read_site(folder.write("site.toml", text));
      FAIL() << "it was taken: " << text;
    } catch (const InputError& error) {
      EXPECT_NE(std::string(error.what()).find("site.toml:2"), std::string::npos) << error.what();
    }
  }
}

}  // namespace
}  // namespace stillheap::site
