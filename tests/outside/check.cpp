#include "outside/check.hpp"

#include <gtest/gtest.h>
#include <toml++/toml.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <map>
#include <set>
#include <string>

namespace stillheap::outside {
namespace {

// A double: the macro NAN is a float and would round every number of the table to seven figures.
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

struct Balances {
  toml::table table;
  std::set<std::string> used;                   // "id.key"
  std::map<std::string, std::string> computed;  // "id.key" -> text for the docs
  std::map<std::string, std::string> missed;    // "id.key" -> why
};

Balances& balances() {
  static Balances the_ledger{
      toml::parse_file(std::string(STILLHEAP_SOURCE_DIR) + "/tests/outside/" + std::getenv("OUTSIDE_TOPIC") + ".toml"),
      {},
      {},
      {}};
  return the_ledger;
}

const toml::node* find(std::string_view id, std::string_view key) {
  const toml::array* checks = balances().table["check"].as_array();
  if (checks == nullptr) return nullptr;
  for (const toml::node& node : *checks) {
    const toml::table& check = *node.as_table();
    if (check["id"].value_or(std::string{}) == id) return check["expect"][key].node();
  }
  return nullptr;
}

std::string name_of(std::string_view id, std::string_view key) { return std::string(id) + "." + std::string(key); }

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g", value);
  return text;
}

}  // namespace

void expect(std::string_view id, std::string_view key, double computed) {
  const std::string name = name_of(id, key);
  const toml::node* node = find(id, key);
  ASSERT_NE(node, nullptr) << name << " is not in the table";
  const toml::table* want = node->as_table();
  ASSERT_NE(want, nullptr) << name << " needs { value, abs | rel } or { low, high }";
  balances().used.insert(name);
  balances().computed[name] = number(computed);
  if ((*want)["low"] && (*want)["high"]) {
    EXPECT_GE(computed, (*want)["low"].value_or(nothing)) << name;
    EXPECT_LE(computed, (*want)["high"].value_or(nothing)) << name;
    return;
  }
  const double value = (*want)["value"].value_or(nothing);
  const double tolerance =
      (*want)["abs"] ? (*want)["abs"].value_or(nothing) : (*want)["rel"].value_or(nothing) * std::abs(value);
  ASSERT_FALSE(std::isnan(value) || std::isnan(tolerance)) << name << " has no value or no tolerance";
  EXPECT_NEAR(computed, value, tolerance) << name;
}

void expect(std::string_view id, std::string_view key, const std::string& computed) {
  const std::string name = name_of(id, key);
  const toml::node* node = find(id, key);
  ASSERT_NE(node, nullptr) << name << " is not in the table";
  balances().used.insert(name);
  balances().computed[name] = computed;
  EXPECT_EQ(computed, node->value_or(std::string{})) << name;
}

void report_miss(std::string_view id, std::string_view key, double computed, std::string_view why) {
  const std::string name = name_of(id, key);
  ASSERT_NE(find(id, key), nullptr) << name << " is not in the table";
  balances().used.insert(name);
  balances().computed[name] = number(computed);
  balances().missed[name] = why;
}

/// Every expectation of the table must have been exercised, else the table claims what no test shows.
std::string unexercised() {
  std::string names;
  for (const toml::node& node : *balances().table["check"].as_array()) {
    const toml::table& check = *node.as_table();
    for (const auto& [key, value] : *check["expect"].as_table()) {
      const std::string name = name_of(check["id"].value_or(std::string{}), key.str());
      if (!balances().used.contains(name)) names += name + " ";
    }
  }
  return names;
}

/// Writes one row an expectation: tab-separated id.key, computed, reason of a miss.
void write_computed(const std::filesystem::path& file) {
  std::ofstream out(file);
  for (const auto& [name, text] : balances().computed) {
    const auto missed = balances().missed.find(name);
    out << name << '\t' << text << '\t' << (missed == balances().missed.end() ? "" : missed->second) << '\n';
  }
}

}  // namespace stillheap::outside

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  const int failed = RUN_ALL_TESTS();
  if (testing::GTEST_FLAG(filter) != "*") return failed;
  if (const char* folder = std::getenv("OUTSIDE_RESULTS")) {
    std::filesystem::create_directories(folder);
    stillheap::outside::write_computed(std::filesystem::path(folder) /
                                       (std::string(std::getenv("OUTSIDE_TOPIC")) + ".tsv"));
  }
  const std::string names = stillheap::outside::unexercised();
  if (!names.empty()) std::printf("not exercised by any test: %s\n", names.c_str());
  return failed != 0 || !names.empty() ? 1 : 0;
}
