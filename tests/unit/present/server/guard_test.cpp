#include "present/server/guard.hpp"

#include <gtest/gtest.h>

namespace stillheap::server {
namespace {

Request from(const std::string& host, const std::string& origin) {
  Request ask;
  ask.method = "POST";
  ask.header = {{"host", host}, {"origin", origin}};
  return ask;
}

TEST(Host, OfAnotherSiteThatPointsHereIsRefused) {
  EXPECT_TRUE(host_is_ours("localhost:8340", false, ""));
  EXPECT_TRUE(host_is_ours("127.0.0.1:8340", false, ""));
  EXPECT_TRUE(host_is_ours("[::1]:8340", false, ""));
  EXPECT_FALSE(host_is_ours("elsewhere.example:8340", false, ""));
  EXPECT_FALSE(host_is_ours("localhost.elsewhere.example", false, ""));
  EXPECT_FALSE(host_is_ours("", false, ""));
  EXPECT_FALSE(host_is_ours("192.0.2.7:8340", false, "shed"));
}

TEST(Host, OnTheNetworkMayBeAnAddressOrThisMachine) {
  EXPECT_TRUE(host_is_ours("192.0.2.7:8340", true, "shed"));
  EXPECT_TRUE(host_is_ours("[2001:db8::7]:8340", true, "shed"));
  EXPECT_TRUE(host_is_ours("Shed.local:8340", true, "shed"));
  EXPECT_FALSE(host_is_ours("elsewhere.example", true, "shed"));
  EXPECT_FALSE(host_is_ours("", true, ""));
}

TEST(Origin, MustBeThePageItself) {
  EXPECT_TRUE(origin_is_ours(from("localhost:8340", "http://localhost:8340"), false));
  EXPECT_FALSE(origin_is_ours(from("localhost:8340", "http://localhost:9999"), false));
  EXPECT_FALSE(origin_is_ours(from("localhost:8340", "http://localhost:8340"), true));
  EXPECT_FALSE(origin_is_ours(from("localhost:8340", "null"), false));
  EXPECT_FALSE(origin_is_ours(from("localhost:8340", ""), false));
}

TEST(Cookies, AreFoundAmongOthersByTheirWholeName) {
  Request ask;
  ask.header["cookie"] = "a=1; stillheap_session=abc; b=2";
  EXPECT_EQ(cookie(ask, "stillheap_session"), "abc");
  EXPECT_EQ(cookie(ask, "session"), "");
  EXPECT_EQ(cookie(ask, "b"), "2");
}

TEST(SafetyHeaders, LetThePageLoadFromHereOnly) {
  Response answer;
  add_safety_headers(answer, false);
  std::string policy;
  for (const auto& [name, value] : answer.headers) {
    if (name == "Content-Security-Policy") policy = value;
  }
  EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
}

}  // namespace
}  // namespace stillheap::server
