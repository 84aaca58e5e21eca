#include "core/json/strict.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/base/error.hpp"

namespace stillheap::strict_json {
namespace {

std::string times(const std::string& text, int count) {
  std::string all;
  for (int i = 0; i < count; ++i) all += text;
  return all;
}

TEST(StrictJson, TakesWhatIsUsual) {
  EXPECT_EQ(what_is_wrong(R"({"a": [1, 2.5, "x", null, true, {"a": 1}], "b": {"a": 2}})"), "");
  EXPECT_EQ(what_is_wrong(times("[", 32) + times("]", 32)), "");
}

// 65,625 levels ended the program.
TEST(StrictJson, RefusesDeepNestingOfAnyKind) {
  for (const int deep : {33, 1000, 65625, 2000000}) {
    EXPECT_NE(what_is_wrong(times("[", deep)), "") << deep;
    EXPECT_NE(what_is_wrong(times("[", deep) + times("]", deep)).find("nested"), std::string::npos) << deep;
    EXPECT_NE(what_is_wrong(times("{\"a\":", deep) + "1" + times("}", deep)).find("nested"), std::string::npos) << deep;
  }
}

TEST(StrictJson, RefusesAKeyTwice) {
  EXPECT_NE(what_is_wrong(R"({"id": 1, "id": 2})").find("twice"), std::string::npos);
  EXPECT_NE(what_is_wrong(R"({"id": 1, "\u0069d": 2})").find("twice"), std::string::npos) << "written in another way";
}

TEST(StrictJson, RefusesMoreValuesThanAllowed) {
  EXPECT_NE(what_is_wrong("[" + times("[],", 100000) + "1]").find("more than"), std::string::npos);
}

TEST(StrictJson, RefusesWhatIsNone) {
  for (const char* const text : {"", "{", "{]", "nul", "1 2", "\xff", "{\"a\" 1}", "[1e999]"}) {
    EXPECT_NE(what_is_wrong(text), "") << text;
  }
  EXPECT_THROW(check("{", "request", "send JSON"), InputError);
}

TEST(StrictCbor, RefusesDeepNestingAndBrokenLengths) {
  const auto sound = nlohmann::json::to_cbor(nlohmann::json{{"a", {1, 2, 3}}});
  EXPECT_EQ(what_is_wrong_with_cbor({reinterpret_cast<const char*>(sound.data()), sound.size()}, {}), "");
  EXPECT_NE(what_is_wrong_with_cbor(times("\x81", 1000000), {}), "");
  EXPECT_NE(what_is_wrong_with_cbor("\x9b\x7f\xff\xff\xff\xff\xff\xff\xff", {}), "");
}

}  // namespace
}  // namespace stillheap::strict_json
