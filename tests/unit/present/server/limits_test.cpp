#include "domain/limits/limits.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "core/base/error.hpp"
#include "planning/site/key.hpp"
#include "present/server/change.hpp"

/// What the planning table takes and what a site file takes are one: no number has a second home.
namespace stillheap::server {
namespace {

/// Keys of a change, and the key of the site file that says the same.
const std::map<std::string, std::pair<std::string, std::string>> same_as = {
    {"diameter_m", {"vessel", "diameter"}},
    {"length_m", {"vessel", "length"}},
    {"width_m", {"vessel", "width"}},
    {"height_m", {"vessel", "height"}},
    {"fill_height_m", {"vessel", "fill_height"}},
    {"moisture_wet", {"blend", "soaked_moisture"}},
};

double si(const site::Key& key, std::string_view text) { return quantity::parse(text, key.dimension); }

bool takes(const Json& change) {
  try {
    (void)read_change(change);
    return true;
  } catch (const InputError&) {
    return false;
  }
}

bool takes_channel(double x_m, double diameter_m) {
  return takes(
      Json{{"design", "x"}, {"channels", Json::array({Json{{"x_m", x_m}, {"y_m", 0.0}, {"diameter_m", diameter_m}}})}});
}

std::string read(const std::string& path) {
  std::ifstream in(STILLHEAP_SOURCE_DIR "/" + path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

TEST(Limits, OfAChangeAreThoseOfTheSiteFile) {
  constexpr double step = 1e-6;
  for (const auto& [name, where] : same_as) {
    const site::Key* key = site::find_key(where.first, where.second);
    ASSERT_NE(key, nullptr) << where.second;
    const double low = si(*key, key->low.text);
    const double high = si(*key, key->high.text);
    EXPECT_TRUE(takes(Json{{"design", "x"}, {name, low}})) << name;
    EXPECT_FALSE(takes(Json{{"design", "x"}, {name, low * (1 - step)}})) << name;
    EXPECT_TRUE(takes(Json{{"design", "x"}, {name, high}})) << name;
    EXPECT_FALSE(takes(Json{{"design", "x"}, {name, high * (1 + step)}})) << name;
  }
}

TEST(Limits, OfChannelsAreThoseOfTheSiteFile) {
  const site::Key* diameter = site::find_key("vessel.channels", "diameter");
  const site::Key* place = site::find_key("vessel.channels", "at");
  const site::Key* count = site::find_key("vessel.channels", "count");
  const double widest_m = si(*diameter, diameter->high.text);
  const double farthest_m = si(*place, place->high.text);
  EXPECT_TRUE(takes_channel(farthest_m, widest_m));
  EXPECT_FALSE(takes_channel(farthest_m, widest_m + 0.001));
  EXPECT_FALSE(takes_channel(farthest_m + 0.001, widest_m));
  EXPECT_FALSE(takes_channel(0.0, si(*diameter, diameter->low.text) - 0.001));
  Json many = Json::array();
  const int most = std::stoi(std::string(count->high.text));
  for (int i = 0; i < most; ++i) many.push_back(Json{{"x_m", 0.0}, {"y_m", 0.0}, {"diameter_m", 0.1}});
  EXPECT_TRUE(takes(Json{{"design", "x"}, {"channels", many}}));
  many.push_back(many.front());
  EXPECT_FALSE(takes(Json{{"design", "x"}, {"channels", many}}));
}

TEST(Limits, CoverEveryNumberThatAChangeMayHold) {
  const Json properties = Json::parse(read("docs/openapi.json"))["components"]["schemas"]["Change"]["properties"];
  for (const auto& [name, about] : properties.items()) {
    if (about.value("type", "") != "number" || name == "most_water_kg_day") continue;
    EXPECT_TRUE(same_as.contains(name)) << name << " may be changed, and no key of the site file stands beside it here";
  }
  EXPECT_TRUE(takes(Json{{"design", "x"}, {"most_water_kg_day", limits::most(limits::water_a_day)}}));
  EXPECT_FALSE(takes(Json{{"design", "x"}, {"most_water_kg_day", limits::most(limits::water_a_day) + 1.0}}));
}

TEST(Limits, StandNowhereInThePage) {
  const std::string table = read("web/src/table/table.ts");
  ASSERT_NE(table.find("limit(table.site, \"diameter\")"), std::string::npos) << "this test looks in the wrong place";
  const std::regex two_numbers("number\\([^\n]*, -?[0-9.]+, -?[0-9.]+, ");
  std::smatch found;
  EXPECT_FALSE(std::regex_search(table, found, two_numbers)) << found.str();
}

TEST(Limits, OfTheFirstFillAreTheSameYears) {
  EXPECT_TRUE(takes(Json{{"design", "x"}, {"start_date", "2199-12-31"}}));
  EXPECT_FALSE(takes(Json{{"design", "x"}, {"start_date", "9999-12-31"}}));
}

}  // namespace
}  // namespace stillheap::server
