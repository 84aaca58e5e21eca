#include "present/server/route.hpp"

#include <gtest/gtest.h>

namespace stillheap::server {
namespace {

TEST(Routes, NameThePartsOfAPath) {
  const auto named = match("/api/fills/{fill}/readings", "/api/fills/018f/readings");
  ASSERT_TRUE(named);
  EXPECT_EQ(named->at("fill"), "018f");
}

TEST(Routes, DoNotMatchLongerShorterOrEmptyParts) {
  EXPECT_FALSE(match("/api/fills/{fill}", "/api/fills/1/readings"));
  EXPECT_FALSE(match("/api/fills/{fill}/readings", "/api/fills/1"));
  EXPECT_FALSE(match("/api/fills/{fill}", "/api/fills/"));
  EXPECT_FALSE(match("/api/yard", "/api/yards"));
}

TEST(Routes, TellAnotherMethodFromNothing) {
  EXPECT_TRUE(find_route("PUT", "/api/yard").other_method);
  EXPECT_FALSE(find_route("GET", "/api/nothing").other_method);
  EXPECT_NE(find_route("GET", "/api/yard").route, nullptr);
}

TEST(Routes, LetNothingButTheSessionThroughWithoutOne) {
  for (const Route& route : routes()) {
    if (route.without_session) {
      EXPECT_EQ(route.pattern, "/api/session");
    }
  }
}

}  // namespace
}  // namespace stillheap::server
