#include "present/server/phone_code.hpp"

#include <arpa/inet.h>
#include <gtest/gtest.h>

#include <array>
#include <string_view>
#include <vector>

#include "present/server/addresses.hpp"

namespace stillheap::server {
namespace {

/// The modules that a terminal would show, dark ones true, row by row.
std::vector<std::vector<bool>> shown(std::string_view text) {
  std::vector<std::vector<bool>> rows(2);
  bool escaped = false;
  for (std::size_t i = 0; i < text.size();) {
    const auto put = [&](bool upper, bool lower, std::size_t bytes) {
      rows[rows.size() - 2].push_back(upper);
      rows[rows.size() - 1].push_back(lower);
      i += bytes;
    };
    const std::string_view rest = text.substr(i);
    if (escaped || rest.front() == '\033') {
      escaped = rest.front() != 'm';
      ++i;
    } else if (rest.front() == '\n') {
      rows.resize(rows.size() + 2);
      ++i;
    } else if (rest.front() == ' ') {
      put(false, false, 1);
    } else {
      put(rest.starts_with("\u2588") || rest.starts_with("\u2580"),
          rest.starts_with("\u2588") || rest.starts_with("\u2584"), 3);
    }
  }
  rows.resize(rows.size() - 2);
  return rows;
}

// The pattern in three corners of every QR code: 1:1:3:1:1. Source: ISO/IEC 18004, finder pattern (from memory).
constexpr std::array<std::string_view, 7> finder = {"#######", "#.....#", "#.###.#", "#.###.#",
                                                    "#.###.#", "#.....#", "#######"};

TEST(PhoneCode, ShowsThePatternOfThreeCornersInsideAWhiteFrame) {
  const auto rows = shown(phone_code("https://192.0.2.7:8340"));  // 22 bytes: version 2 at level M, 25 modules
  ASSERT_EQ(rows.size(), 34U);                                    // with the frame, 33, in pairs
  ASSERT_EQ(rows.front().size(), 33U);
  for (const auto& [down, along] : {std::pair{4U, 4U}, std::pair{4U, 22U}, std::pair{22U, 4U}}) {
    for (std::size_t y = 0; y < finder.size(); ++y) {
      for (std::size_t x = 0; x < 7; ++x) EXPECT_EQ(rows[down + y][along + x], finder[y][x] == '#') << y << ' ' << x;
    }
  }
  for (std::size_t i = 0; i < 33; ++i) EXPECT_FALSE(rows[3][i] || rows[i][3] || rows[i][29] || rows[29][i]) << i;
}

TEST(PhoneCode, IsNotDrawnForWhatIsTooLong) { EXPECT_EQ(phone_code(std::string(4000, 'a')), ""); }

TEST(PhoneAddresses, AreThoseOfTheNetworkAndTheMachinesName) {
  Safety safety;
  EXPECT_TRUE(phone_addresses(safety, 8340).empty());
  safety.lan = true;
  safety.tls = true;
  safety.machine_name = "shed";
  const auto addresses = phone_addresses(safety, 8340);
  ASSERT_FALSE(addresses.empty());
  EXPECT_EQ(addresses.back(), "https://shed:8340");
  for (const std::string& one : network_addresses()) {
    in_addr read{};
    EXPECT_EQ(inet_pton(AF_INET, one.c_str(), &read), 1) << one;
    EXPECT_FALSE(one.starts_with("127.")) << one;
  }
}

}  // namespace
}  // namespace stillheap::server
