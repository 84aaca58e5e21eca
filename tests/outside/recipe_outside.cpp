#include <gtest/gtest.h>

#include <cmath>

#include "check.hpp"
#include "domain/material/estimate.hpp"
#include "domain/material/finder.hpp"

namespace stillheap::material {
namespace {

using outside::expect;

constexpr double seconds_per_day = 86400.0;

Feedstock feedstock(const char* id, double moisture, double carbon, double nitrogen, double density = 400.0) {
  Feedstock f;
  f.id = id;
  f.moisture_wet = moisture;
  f.carbon_dry = carbon;
  f.nitrogen_dry = nitrogen;
  f.bulk_density_kg_m3 = density;
  return f;
}

Limits open_limits() {
  Limits limits;
  limits.carbon_to_nitrogen = {0.0, 1e4};
  limits.moisture_wet = {0.0, 0.99};
  limits.free_air_space = {0.0, 1.0};
  limits.conductivity_max_s_m = 100.0;
  return limits;
}

/// kg of the second feedstock per kg of the first in the blend with the most of the first that the limits allow.
double second_per_first(const Feedstock& first, const Feedstock& second, const Limits& limits) {
  const std::vector<Offer> offers{{first, 1e6, 0.0, 0.0}, {second, {}, 0.0, 0.0}};
  const Found found = find_blend(offers, limits, Objective::use_up_stock, 1.0, limits.moisture_wet.low);
  return found.feasible ? found.mass_wet_kg[1] / found.mass_wet_kg[0] : std::nan("");
}

/// A blend of two typical feedstocks with a given share of the dry matter from the second.
Blend by_dry_share(const char* first, const char* second, double share) {
  const Feedstock a = *find_typical(first);
  const Feedstock b = *find_typical(second);
  return mix(std::vector<Part>{{a, (1.0 - share) / (1.0 - a.moisture_wet)}, {b, share / (1.0 - b.moisture_wet)}});
}

/// What check_ranges calls a value: the words before the colon.
std::string verdict(const Blend& blend, const std::string& where) {
  for (const Warning& warning : check_ranges(blend)) {
    if (warning.where == where) return warning.what.substr(0, warning.what.find(':'));
  }
  return "nothing to say";
}

TEST(Recipe, MoistureFromOvenDrying) {
  expect("R01", "moisture_percent", 100.0 * moisture_from_drying(10.0, 4.0, 6.3));
}

TEST(Recipe, SecondMaterialForMoisture) {
  Limits limits = open_limits();
  limits.moisture_wet.high = 0.60;
  const Feedstock grass = feedstock("grass", 0.77, 0.45, 0.024);
  const Feedstock leaves = feedstock("leaves", 0.35, 0.50, 0.0075);
  expect("R02", "leaves_kg", 10.0 * second_per_first(grass, leaves, limits));
}

TEST(Recipe, SecondMaterialForCarbonToNitrogen) {
  Limits limits = open_limits();
  limits.carbon_to_nitrogen.low = 30.0;
  const Feedstock grass = feedstock("grass", 0.77, 0.45, 0.024);
  const Feedstock leaves = feedstock("leaves", 0.35, 0.50, 0.0075);
  expect("R03", "leaves_kg", 10.0 * second_per_first(grass, leaves, limits));
}

TEST(Recipe, BlendOfManureAndStraw) {
  const Blend blend = mix(std::vector<Part>{{feedstock("manure", 0.81, 0.456, 0.024), 100.0},
                                            {feedstock("straw", 0.12, 0.560, 0.007), 25.0}});
  expect("R04b", "moisture_percent", 100.0 * blend.moisture_wet);
  expect("R04b", "carbon_to_nitrogen", blend.carbon_to_nitrogen);
}

TEST(Recipe, WetManureStaysTooWet) {
  const Feedstock manure = feedstock("manure", 0.81, 0.456, 0.024, 865.0);
  const Feedstock straw = feedstock("straw", 0.12, 0.560, 0.007, 135.0);
  Limits limits = open_limits();
  limits.carbon_to_nitrogen = {30.0, 30.0};
  const double straw_kg = 100.0 * second_per_first(manure, straw, limits);
  const Blend blend = mix(std::vector<Part>{{manure, 100.0}, {straw, straw_kg}});
  const double water_kg = water_to_add_kg(blend, 0.60);
  expect("R06", "straw_kg", straw_kg);
  expect("R06", "water_kg", water_kg);
  limits.moisture_wet = {0.60, 0.60};
  const std::vector<Offer> offers{{manure, {}, 0.0, 0.0}, {straw, {}, 0.0, 0.0}};
  const Found found = find_blend(offers, limits, Objective::least_cost, blend.volume_m3, 0.60);
  expect("R06", "verdict",
         std::string(found.feasible ? "feasible" : "infeasible") + (water_kg < 0.0 ? ": water negative" : ""));
  double reachable = 0.0;
  for (const Conflict& conflict : found.conflicts) {
    if (conflict.limit.starts_with("moisture at most")) reachable = conflict.reachable;
  }
  expect("R06", "reachable_moisture_percent", 100.0 * reachable);
}

TEST(Recipe, CarbonFromAsh) {
  expect("R07", "ash_5_percent", 100.0 * carbon_from_ash(0.05));
  expect("R07", "ash_20_percent", 100.0 * carbon_from_ash(0.20));
}

TEST(Recipe, PublishedStartingRanges) {
  Blend blend = by_dry_share("wheat-straw", "cattle-manure", 0.5);
  for (const auto& [key, value] :
       {std::pair{"moisture_29", 0.29}, {"moisture_35", 0.35}, {"moisture_55", 0.55}, {"moisture_62", 0.62}}) {
    blend.moisture_wet = value;
    expect("R08", key, verdict(blend, "moisture"));
  }
  for (const auto& [key, value] :
       {std::pair{"carbon_to_nitrogen_18", 18.0}, {"carbon_to_nitrogen_28", 28.0}, {"carbon_to_nitrogen_45", 45.0}}) {
    blend.carbon_to_nitrogen = value;
    expect("R08", key, verdict(blend, "C:N"));
  }
  for (const auto& [key, value] : {std::pair{"bulk_density_600", 600.0}, {"bulk_density_650", 650.0}}) {
    blend.bulk_density_kg_m3 = value;
    expect("R08", key, verdict(blend, "bulk density"));
  }
}

TEST(Recipe, TypicalTableInsideAPublishedOne) {
  for (const auto& [id, key] : {std::pair{"dairy-manure", "dairy"},
                                {"wheat-straw", "wheat_straw"},
                                {"sawdust", "sawdust"},
                                {"wood-chips", "wood_chips"}}) {
    const Feedstock f = *find_typical(id);
    const std::string name = key;
    expect("R10", name + "_nitrogen", 100.0 * f.nitrogen_dry);
    expect("R10", name + "_carbon_to_nitrogen", f.carbon_dry / f.nitrogen_dry);
    expect("R10", name + "_moisture", 100.0 * f.moisture_wet);
    expect("R10", name + "_density", f.bulk_density_kg_m3);
  }
}

TEST(Recipe, DryBulkDensityOfStrawAndManure) {
  for (const auto& [key, share] : {std::pair{"little_manure", 0.1}, {"half_manure", 0.5}, {"much_manure", 0.9}}) {
    const Blend blend = by_dry_share("wheat-straw", "cattle-manure", share);
    expect("RB1", key, blend.mass_dry_kg / blend.volume_m3);
  }
}

TEST(Recipe, LeafAndGrassMixes) {
  expect("RL1", "leaves", by_dry_share("leaves", "grass-clippings", 0.0).carbon_to_nitrogen);
  expect("RL1", "third_grass", by_dry_share("leaves", "grass-clippings", 1.0 / 3.0).carbon_to_nitrogen);
  expect("RL1", "two_thirds_grass", by_dry_share("leaves", "grass-clippings", 2.0 / 3.0).carbon_to_nitrogen);
}

TEST(Recipe, CarbonOfMushroomCompost) { expect("RM1", "carbon_percent", 100.0 * carbon_from_ash(1.0 - 0.6097)); }

TEST(Recipe, DegradableShareOfFood) {
  const Feedstock food = *find_typical("food-scraps");
  expect("RF1", "share", (food.pool_dry[fast] + food.pool_dry[medium] + food.pool_dry[slow]) / (1.0 - food.ash_dry));
}

/// g O2 per kg of volatile solids and hour when decay starts.
double uptake(const Blend& blend, double factor, double oxygen_per_degraded) {
  double per_day = 0.0;
  for (std::size_t i = 0; i < pool_count; ++i) {
    per_day += blend.pool_dry[i] * blend.pool_rate_20c_per_s[i] * seconds_per_day;
  }
  return 1000.0 / 24.0 * oxygen_per_degraded * factor * per_day / (1.0 - blend.ash_dry);
}

TEST(Recipe, OxygenUptakeOfActiveBlends) {
  const std::pair<const char*, Blend> blends[] = {
      {"manure_and_straw", by_dry_share("wheat-straw", "cattle-manure", 0.5)},
      {"food_and_leaves", by_dry_share("leaves", "food-scraps", 0.5)},
      {"grass_and_leaves", by_dry_share("leaves", "grass-clippings", 0.5)}};
  for (const auto& [key, blend] : blends) {
    expect("RU1", std::string(key) + "_low", uptake(blend, 9.0, 1.4));
    const double high = uptake(blend, 12.0, 2.0);
    if (std::string_view(key) != "manure_and_straw") {
      outside::report_miss("RU1", std::string(key) + "_high", high,
                           "fresh food and grass burn faster since their rates come from respirometry; the range is of "
                           "mixed, active heaps");
    } else {
      expect("RU1", std::string(key) + "_high", high);
    }
  }
}

double lost(const Feedstock& f, Pool pool, double factor, double days) {
  return 1.0 - std::exp(-f.pool_rate_20c_per_s[pool] * seconds_per_day * factor * days);
}

TEST(Recipe, PoolsLostInTheLaboratory) {
  const Feedstock leaves = *find_typical("leaves");
  expect("RK1", "medium", lost(leaves, medium, 8.1, 43.0));
  outside::report_miss(
      "RK1", "slow", lost(leaves, slow, 8.1, 43.0),
      "the slow rate is about a third of what this test suggests if it ran near 55 degC, and was not raised to "
      "meet it: chip piles lose less than the model already (RK2), and the stated spread of the rate "
      "reaches 0.0015 per day, which would give 41 %");
}

TEST(Recipe, ChipsLostInAPile) {
  const Feedstock chips = *find_typical("wood-chips");
  double gone = 0.0;
  for (const Pool pool : {fast, medium, slow}) gone += chips.pool_dry[pool] * lost(chips, pool, 1.0, 5.9 * 30.4);
  expect("RK2", "lost", gone);
}

}  // namespace
}  // namespace stillheap::material
