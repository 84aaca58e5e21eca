#include "yard/record/ident.hpp"

#include <gtest/gtest.h>

#include <set>

namespace stillheap::record {
namespace {

TEST(Ids, AreVersionSevenAndSortByTime) {
  std::set<std::string> seen;
  const std::string early = new_id();
  for (int i = 0; i < 1000; ++i) seen.insert(new_id());
  EXPECT_EQ(seen.size(), 1000U);
  EXPECT_EQ(early[14], '7');
  EXPECT_NE(std::string("89ab").find(early[19]), std::string::npos);
  EXPECT_LE(early.substr(0, 13), seen.begin()->substr(0, 13));
}

TEST(Ids, GoThereAndBack) {
  const std::string text = "018f4d5e-0a1b-7c2d-8e3f-0123456789ab";
  EXPECT_EQ(id_text(id_bytes(text).value()), text);
  EXPECT_EQ(id_bytes("018F4D5E-0A1B-7C2D-8E3F-0123456789AB"), id_bytes(text));
  for (const char* bad : {"", "018f4d5e0a1b7c2d8e3f0123456789ab", "018f4d5e-0a1b-7c2d-8e3f-0123456789ag",
                          "018f4d5e-0a1b-7c2d-8e3f-0123456789ab0", "018f4d5e+0a1b-7c2d-8e3f-0123456789ab"}) {
    EXPECT_FALSE(id_bytes(bad)) << bad;
  }
}

TEST(Sha256, MeetsTheStandardsExample) {
  // FIPS 180-2, appendix B.1.
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

}  // namespace
}  // namespace stillheap::record
