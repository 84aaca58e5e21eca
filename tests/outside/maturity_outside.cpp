#include <gtest/gtest.h>

#include "outside/check.hpp"
#include "yard/insight/maturity.hpp"

namespace stillheap::insight {
namespace {

std::string verdict(Standard standard, const std::map<std::string, double>& values) {
  return passes(standard, check_quality(standard, values)) ? "pass" : "fail";
}

void expect_row(const char* id, const char* row, Standard standard, const char* key, double value) {
  outside::expect(id, row, verdict(standard, {{key, value}}));
}

TEST(Metals, PassAtTheLimitAndFailAbove) {
  const std::map<std::string, double> at_limit = {{"arsenic", 41.0},   {"cadmium", 39.0}, {"copper", 1500.0},
                                                  {"lead", 300.0},     {"mercury", 17.0}, {"nickel", 420.0},
                                                  {"selenium", 100.0}, {"zinc", 2800.0}};
  outside::expect("Q01", "all_at_the_limit", verdict(Standard::metals, at_limit));
  expect_row("Q01", "arsenic_41_0", Standard::metals, "arsenic", 41.0);
  expect_row("Q01", "arsenic_41_1", Standard::metals, "arsenic", 41.1);
  expect_row("Q01", "cadmium_39_1", Standard::metals, "cadmium", 39.1);
  expect_row("Q01", "copper_1501", Standard::metals, "copper", 1501.0);
  expect_row("Q01", "lead_301", Standard::metals, "lead", 301.0);
  expect_row("Q01", "mercury_17_1", Standard::metals, "mercury", 17.1);
  expect_row("Q01", "nickel_421", Standard::metals, "nickel", 421.0);
  expect_row("Q01", "selenium_101", Standard::metals, "selenium", 101.0);
  expect_row("Q01", "zinc_2801", Standard::metals, "zinc", 2801.0);
}

TEST(Pathogens, MustLieBelowTheLimitInEitherIndicator) {
  expect_row("Q03", "coliform_999", Standard::pathogens, "fecal_coliform", 999.0);
  expect_row("Q03", "coliform_1000", Standard::pathogens, "fecal_coliform", 1000.0);
  expect_row("Q03", "salmonella_2_9", Standard::pathogens, "salmonella", 2.9);
  expect_row("Q03", "salmonella_3_0", Standard::pathogens, "salmonella", 3.0);
  outside::expect("Q03", "either_suffices",
                  verdict(Standard::pathogens, {{"fecal_coliform", 5000.0}, {"salmonella", 1.0}}));
}

TEST(Specification, HoldsEveryLimit) {
  const Standard standard = Standard::specification;
  expect_row("Q04", "carbon_dioxide_7_9", standard, "carbon_dioxide", 7.9);
  expect_row("Q04", "carbon_dioxide_8_0", standard, "carbon_dioxide", 8.0);
  expect_row("Q04", "vigour_80", standard, "seedling_vigour", 80.0);
  expect_row("Q04", "vigour_79", standard, "seedling_vigour", 79.0);
  expect_row("Q04", "ph_5_5", standard, "ph", 5.5);
  expect_row("Q04", "ph_8_6", standard, "ph", 8.6);
  expect_row("Q04", "conductivity_10", standard, "conductivity", 10.0);
  expect_row("Q04", "conductivity_10_1", standard, "conductivity", 10.1);
  expect_row("Q04", "organic_matter_29", standard, "organic_matter", 29.0);
  expect_row("Q04", "organic_matter_65", standard, "organic_matter", 65.0);
}

TEST(SelfHeating, FallsIntoThePublishedClasses) {
  const std::pair<const char*, double> rises[] = {
      {"rise_5", 5.0}, {"rise_15", 15.0}, {"rise_25", 25.0}, {"rise_35", 35.0}, {"rise_45", 45.0}};
  for (const auto& [key, rise_k] : rises) {
    outside::expect("Q06", key, std::string(self_heating_class(rise_k).numeral));
  }
}

TEST(Germination, GivesTheIndex) {
  outside::expect("Q07", "index_percent", germination_index_percent(88.0, 95.0, 32.0, 40.0));
}

}  // namespace
}  // namespace stillheap::insight
