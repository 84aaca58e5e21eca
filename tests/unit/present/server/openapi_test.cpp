#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "present/server/route.hpp"
#include "yard/record/measure.hpp"

namespace stillheap::server {
namespace {

using Pairs = std::set<std::pair<std::string, std::string>>;

nlohmann::json document() {
  std::ifstream in(STILLHEAP_SOURCE_DIR "/docs/openapi.json");
  return nlohmann::json::parse(in);
}

Pairs described() {
  Pairs found;
  const nlohmann::json doc = document();
  for (const auto& [path, methods] : doc.at("paths").items()) {
    for (const auto& [method, about] : methods.items()) {
      std::string upper = method;
      std::transform(upper.begin(), upper.end(), upper.begin(),
                     [](char c) { return static_cast<char>(c - 'a' + 'A'); });
      found.emplace(upper, path);
    }
  }
  return found;
}

Pairs served() {
  Pairs found;
  for (const Route& route : routes()) found.emplace(route.method, route.pattern);
  return found;
}

TEST(OpenApi, DescribesEveryRouteAndNoOther) { EXPECT_EQ(described(), served()); }

TEST(OpenApi, NamesEveryPartOfAPathAsAParameter) {
  const nlohmann::json doc = document();
  for (const auto& [path, methods] : doc.at("paths").items()) {
    for (const auto& [method, about] : methods.items()) {
      std::set<std::string> wanted, named;
      for (std::size_t at = path.find('{'); at != std::string::npos; at = path.find('{', at + 1)) {
        wanted.insert(path.substr(at + 1, path.find('}', at) - at - 1));
      }
      for (const auto& one : about.value("parameters", nlohmann::json::array())) {
        if (one.at("in") == "path") named.insert(one.at("name").get<std::string>());
      }
      EXPECT_EQ(wanted, named) << method << ' ' << path;
    }
  }
}

TEST(OpenApi, RefersOnlyToSchemasThatAreThere) {
  const nlohmann::json doc = document();
  const std::string text = doc.dump();
  const std::string before = "\"#/components/schemas/";
  std::size_t count = 0;
  for (std::size_t at = text.find(before); at != std::string::npos; at = text.find(before, at + 1), ++count) {
    const std::size_t from = at + before.size();
    const std::string name = text.substr(from, text.find('"', from) - from);
    EXPECT_TRUE(doc.at("components").at("schemas").contains(name)) << name;
  }
  EXPECT_GT(count, 20U);
}

TEST(OpenApi, NamesTheMeasuresAndEventsOfTheRecords) {
  const nlohmann::json schemas = document().at("components").at("schemas");
  std::set<std::string> measures, events;
  for (const auto& one : record::measures()) measures.emplace(one.key);
  for (const auto& one : record::event_kinds()) events.emplace(one.key);
  EXPECT_EQ(schemas.at("Reading").at("properties").at("measure").at("enum").get<std::set<std::string>>(), measures);
  EXPECT_EQ(schemas.at("Event").at("properties").at("kind").at("enum").get<std::set<std::string>>(), events);
}

}  // namespace
}  // namespace stillheap::server
