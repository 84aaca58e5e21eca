// The yard plan against another solver: cases.toml and solve.py in yard_plans/, what that found in yard_plan.toml.
#include <gtest/gtest.h>
#include <toml++/toml.h>

#include <filesystem>
#include <numeric>

#include "check.hpp"
#include "planning/supply/yard_plan.hpp"

namespace stillheap {
namespace {

using outside::expect;

std::vector<double> numbers(const toml::table& table, const char* key) {
  std::vector<double> list;
  for (const toml::node& one : *table.get_as<toml::array>(key)) list.push_back(one.value<double>().value());
  return list;
}

double number(const toml::table& table, const char* key) { return table.get(key)->value<double>().value(); }

supply::Wish wish_of(const toml::table& table) {
  supply::Wish wish;
  wish.year = {numbers(table, "first_day"), 365.0};
  wish.wanted_m3 = numbers(table, "wanted_m3");
  wish.yield_m3 = number(table, "yield_m3");
  wish.harvest_days = number(table, "harvest_days");
  wish.rest_days = number(table, "rest_days");
  for (const toml::node& one : *table.get_as<toml::array>("may_fill"))
    wish.may_fill.push_back(one.value<bool>().value());
  wish.store_days = number(table, "store_days");
  if (table.contains("store_m3")) wish.store_m3 = number(table, "store_m3");
  if (table.contains("most_hours")) wish.most_hours = numbers(table, "most_hours");
  for (const toml::node& one : *table.get_as<toml::array>("jobs")) {
    const toml::array& job = *one.as_array();
    wish.work.jobs.push_back({"job", job[0].value<double>().value(), job[1].value<double>().value()});
  }
  wish.work.harvest_hours = number(table, "harvest_hours");
  wish.work.daily_hours = number(table, "daily_hours");
  if (const toml::array* seasons = table.get_as<toml::array>("season")) {
    for (const toml::node& one : *seasons) {
      const toml::table& season = *one.as_table();
      wish.seasons.push_back({"material", "Material", number(season, "per_fill_m3"), numbers(season, "arises_m3"),
                              number(season, "keeps_days")});
    }
  }
  return wish;
}

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

TEST(YardPlan, IsTheOneThatAnotherSolverFinds) {
  const auto file = std::filesystem::path(STILLHEAP_SOURCE_DIR) / "tests/outside/yard_plans/cases.toml";
  const toml::table root = toml::parse_file(file.string());
  int count = 0;
  for (const toml::node& one : *root.get_as<toml::array>("case")) {
    const std::string id = "YP0" + std::to_string(++count);
    const auto plan = supply::best_plan(wish_of(*one.as_table()));
    expect(id, "plan", std::string(plan ? "there is one" : "there is none"));
    if (!plan) continue;
    expect(id, "places", plan->places);
    expect(id, "fills", plan->fills_a_year);
    expect(id, "busiest_h", plan->busiest_hours);
    expect(id, "kept_m3", sum(plan->stock_m3));
  }
  EXPECT_EQ(count, 9);
}

}  // namespace
}  // namespace stillheap
