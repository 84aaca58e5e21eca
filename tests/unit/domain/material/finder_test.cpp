#include "domain/material/finder.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <thread>

#include "core/base/error.hpp"

namespace stillheap::material {
namespace {

Offer offer(const char* id, double price, std::optional<double> stock = {}, double at_least = 0.0) {
  return {*find_typical(id), stock, at_least, price};
}

/// Cheapest blend of three offers that fills 1 m3, by trying every pair of volume shares: knows nothing of the solver.
double cheapest_by_trying(const std::vector<Offer>& offers, const Limits& limits, double target, int steps) {
  double best = 1e300;
  for (int i = 0; i <= steps; ++i) {
    for (int j = 0; i + j <= steps; ++j) {
      const double share[3] = {i * 1.0 / steps, j * 1.0 / steps, (steps - i - j) * 1.0 / steps};
      std::vector<Part> parts;
      double cost = 0.0;
      for (int k = 0; k < 3; ++k) {
        const double kg = share[k] * offers[k].feedstock.bulk_density_kg_m3;
        parts.push_back({offers[k].feedstock, kg});
        cost += kg * offers[k].price_per_kg;
      }
      const Blend delivered = mix(parts);
      const Blend soaked = at_moisture(delivered, std::max(target, delivered.moisture_wet));
      const bool good =
          soaked.carbon_to_nitrogen >= limits.carbon_to_nitrogen.low &&
          soaked.carbon_to_nitrogen <= limits.carbon_to_nitrogen.high &&
          soaked.moisture_wet <= limits.moisture_wet.high && soaked.free_air_space >= limits.free_air_space.low &&
          soaked.free_air_space <= limits.free_air_space.high && soaked.conductivity_s_m <= limits.conductivity_max_s_m;
      if (good) best = std::min(best, cost);
    }
  }
  return best;
}

void expect_within(const Blend& blend, const Limits& limits) {
  EXPECT_GE(blend.carbon_to_nitrogen, limits.carbon_to_nitrogen.low - 1e-4);
  EXPECT_LE(blend.carbon_to_nitrogen, limits.carbon_to_nitrogen.high + 1e-4);
  EXPECT_GE(blend.free_air_space, limits.free_air_space.low - 1e-6);
  EXPECT_LE(blend.free_air_space, limits.free_air_space.high + 1e-6);
  EXPECT_GE(blend.moisture_wet, limits.moisture_wet.low - 1e-6);
  EXPECT_LE(blend.moisture_wet, limits.moisture_wet.high + 1e-6);
  EXPECT_LE(blend.conductivity_s_m, limits.conductivity_max_s_m + 1e-6);
}

bool names(const std::vector<std::string>& list, const std::string& start) {
  return std::any_of(list.begin(), list.end(), [&](const std::string& name) { return name.starts_with(start); });
}

const Conflict* conflict(const Found& found, const std::string& start) {
  for (const Conflict& c : found.conflicts) {
    if (c.limit.starts_with(start)) return &c;
  }
  return nullptr;
}

TEST(BlendFinder, FillsTheVolumeWithinAllLimits) {
  const std::vector<Offer> offers{offer("wood-chips", 0.02), offer("cattle-manure", 0.01), offer("leaves", 0.03)};
  const Limits limits;
  const Found found = find_blend(offers, limits, Objective::least_cost, 1.8, 0.65);
  ASSERT_TRUE(found.feasible);
  expect_within(found.blend, limits);
  EXPECT_NEAR(found.blend.volume_m3, 1.8, 1e-6);
  EXPECT_TRUE(found.conflicts.empty());
}

TEST(BlendFinder, SoaksToTheTargetOrNotAtAll) {
  Limits limits;
  limits.free_air_space.high = 0.80;
  const std::vector<Offer> dry{offer("wood-chips", 0.02), offer("cattle-manure", 0.05), offer("leaves", 0.03)};
  const std::vector<Offer> wet{offer("wood-chips", 0.02), offer("cattle-manure", 0.0), offer("leaves", 0.03)};
  const Found soaked = find_blend(dry, limits, Objective::least_cost, 1.8, 0.65);
  ASSERT_TRUE(soaked.feasible);
  EXPECT_GT(soaked.water_kg, 1.0);
  EXPECT_NEAR(soaked.blend.moisture_wet, 0.65, 1e-6);
  const Found unsoaked = find_blend(wet, limits, Objective::least_cost, 1.8, 0.65);
  ASSERT_TRUE(unsoaked.feasible);
  EXPECT_EQ(unsoaked.water_kg, 0.0);
  EXPECT_GT(unsoaked.blend.moisture_wet, 0.66);
}

TEST(BlendFinder, AgreesWithTryingEveryBlend) {
  const std::vector<std::vector<Offer>> cases{
      {offer("wood-chips", 0.02), offer("cattle-manure", 0.01), offer("leaves", 0.03)},
      {offer("orchard-prunings", 0.01), offer("layer-manure", 0.04), offer("wheat-straw", 0.10)},
      {offer("sawdust", 0.03), offer("grass-clippings", 0.002), offer("horse-manure", 0.01)}};
  Limits limits;
  limits.free_air_space.high = 0.80;
  for (const auto& offers : cases) {
    const Found found = find_blend(offers, limits, Objective::least_cost, 1.0, 0.62);
    const double tried = cheapest_by_trying(offers, limits, 0.62, 150);
    ASSERT_TRUE(found.feasible) << offers[0].feedstock.id;
    expect_within(found.blend, limits);
    EXPECT_LE(found.cost, tried * (1.0 + 1e-6)) << offers[0].feedstock.id;
    EXPECT_GE(found.cost, 0.95 * tried) << offers[0].feedstock.id;  // a grid of 150 steps misses the corner by a little
  }
}

TEST(BlendFinder, AgreesWithTheHandSolutionOfTwoFeedstocks) {
  // Only moisture binds: a share s of chips by mass has 0.28 s + 0.81 (1 - s) = 0.70 of water, so s = 0.11 / 0.53.
  std::vector<Offer> offers{offer("wood-chips", 1.0), offer("cattle-manure", 0.0)};
  Limits limits;
  limits.carbon_to_nitrogen = {1.0, 1000.0};
  limits.free_air_space = {0.0, 1.0};
  limits.conductivity_max_s_m = 10.0;
  const Found found = find_blend(offers, limits, Objective::least_cost, 1.0, 0.65);
  ASSERT_TRUE(found.feasible);
  EXPECT_NEAR(found.mass_wet_kg[0] / (found.mass_wet_kg[0] + found.mass_wet_kg[1]), 0.11 / 0.53, 1e-6);
  EXPECT_NEAR(found.water_kg, 0.0, 1e-6);
}

TEST(BlendFinder, UsesUpStockFirst) {
  const std::vector<Offer> offers{offer("wood-chips", 0.0), offer("cattle-manure", 0.5, 300.0),
                                  offer("horse-manure", 0.0)};
  const Limits limits;
  const Found thrifty = find_blend(offers, limits, Objective::least_cost, 1.5, 0.65);
  const Found clearing = find_blend(offers, limits, Objective::use_up_stock, 1.5, 0.65);
  ASSERT_TRUE(thrifty.feasible);
  ASSERT_TRUE(clearing.feasible);
  EXPECT_GT(clearing.mass_wet_kg[1], thrifty.mass_wet_kg[1] + 1.0);
  EXPECT_LE(clearing.mass_wet_kg[1], 300.0 + 1e-6);
  expect_within(clearing.blend, limits);
}

TEST(BlendFinder, TakesAtLeastWhatIsAsked) {
  const std::vector<Offer> offers{offer("wood-chips", 0.01), offer("cattle-manure", 0.0),
                                  offer("leaves", 5.0, {}, 20.0)};
  const Found found = find_blend(offers, {}, Objective::least_cost, 1.5, 0.65);
  ASSERT_TRUE(found.feasible);
  EXPECT_NEAR(found.mass_wet_kg[2], 20.0, 1e-4);
}

TEST(BlendFinder, StaysClearOfTheEndsWhenAllIsFree) {
  const std::vector<Offer> offers{offer("wood-chips", 0.0), offer("horse-manure", 0.0), offer("leaves", 0.0)};
  Limits limits;
  limits.free_air_space.high = 1.0;
  const Found found = find_blend(offers, limits, Objective::least_cost, 1.5, 0.65);
  ASSERT_TRUE(found.feasible);
  EXPECT_NEAR(found.blend.carbon_to_nitrogen, 32.5, 0.01);
}

TEST(BlendFinder, SaysThatWetManureCannotBeDried) {
  const std::vector<Offer> offers{offer("cattle-manure", 0.0), offer("grass-clippings", 0.0)};
  Limits limits;
  limits.carbon_to_nitrogen = {10.0, 100.0};
  limits.free_air_space = {0.0, 1.0};
  limits.conductivity_max_s_m = 10.0;
  const Found found = find_blend(offers, limits, Objective::least_cost, 1.0, 0.65);
  ASSERT_FALSE(found.feasible);
  EXPECT_TRUE(found.mass_wet_kg.empty());
  ASSERT_EQ(found.fight.size(), 1U);
  EXPECT_EQ(found.fight[0], "moisture at most 70 %");
  EXPECT_NEAR(found.conflicts[0].reachable, 0.81, 1e-6);
  EXPECT_TRUE(found.conflicts[0].enough_alone);
}

TEST(BlendFinder, NamesTheTwoLimitsThatFight) {
  // Chips alone cannot get under C:N 40 and manure alone is too wet; little manure is left in stock.
  const std::vector<Offer> offers{offer("wood-chips", 0.01), offer("cattle-manure", 0.0, 20.0)};
  const Found found = find_blend(offers, {}, Objective::least_cost, 1.5, 0.65);
  ASSERT_FALSE(found.feasible);
  EXPECT_TRUE(names(found.fight, "stock of cattle-manure"));
  EXPECT_TRUE(names(found.fight, "carbon to nitrogen at most 40"));
  const Conflict* stock = conflict(found, "stock of cattle-manure");
  ASSERT_NE(stock, nullptr);
  EXPECT_GT(stock->reachable, 20.0);
  // Granting exactly what the report asks for must mend it, and a little less must not.
  std::vector<Offer> granted = offers;
  granted[1].stock_kg = 1.001 * stock->reachable;
  EXPECT_EQ(find_blend(granted, {}, Objective::least_cost, 1.5, 0.65).feasible, stock->enough_alone);
  granted[1].stock_kg = 0.99 * stock->reachable;
  EXPECT_FALSE(find_blend(granted, {}, Objective::least_cost, 1.5, 0.65).feasible);
}

TEST(BlendFinder, OffersTheVolumeThatStocksCanFill) {
  std::vector<Offer> offers{offer("wood-chips", 0.0, 100.0), offer("leaves", 0.0, 30.0), offer("cattle-manure", 0.0)};
  const Found found = find_blend(offers, {}, Objective::least_cost, 5.0, 0.65);
  ASSERT_FALSE(found.feasible);
  const Conflict* volume = conflict(found, "volume");
  ASSERT_NE(volume, nullptr);
  EXPECT_TRUE(volume->enough_alone);
  EXPECT_LT(volume->reachable, 5.0);
  EXPECT_TRUE(find_blend(offers, {}, Objective::least_cost, 0.999 * volume->reachable, 0.65).feasible);
  EXPECT_FALSE(find_blend(offers, {}, Objective::least_cost, 1.01 * volume->reachable, 0.65).feasible);
}

TEST(BlendFinder, DoesNotAdviseAVolumeOfNothing) {
  const std::vector<Offer> offers{offer("wood-chips", 0.0), offer("sawdust", 0.0)};
  Limits limits;
  limits.free_air_space = {0.0, 1.0};
  const Found found = find_blend(offers, limits, Objective::least_cost, 1.0, 0.65);
  ASSERT_FALSE(found.feasible);
  EXPECT_EQ(conflict(found, "volume"), nullptr);
  const Conflict* carbon = conflict(found, "carbon to nitrogen at most");
  ASSERT_NE(carbon, nullptr);
  EXPECT_NEAR(carbon->reachable, 0.50 / 0.0015, 0.01);
}

TEST(BlendFinder, RefusesContradictoryInput) {
  const std::vector<Offer> offers{offer("wood-chips", 0.0, 10.0, 20.0)};
  EXPECT_THROW(static_cast<void>(find_blend(offers, {}, Objective::least_cost, 1.0, 0.65)), InputError);
  EXPECT_THROW(static_cast<void>(find_blend({}, {}, Objective::least_cost, 1.0, 0.65)), InputError);
  const std::vector<Offer> good{offer("wood-chips", 0.0)};
  EXPECT_THROW(static_cast<void>(find_blend(good, {}, Objective::least_cost, 0.0, 0.65)), InputError);
  EXPECT_THROW(static_cast<void>(find_blend(good, {}, Objective::least_cost, 1.0, 0.50)), InputError);
}

TEST(BlendFinder, GivesTheSameAnswerInEveryThread) {
  const std::vector<Offer> offers{offer("wood-chips", 0.02), offer("cattle-manure", 0.01), offer("leaves", 0.03)};
  std::vector<double> cost(4);
  std::vector<std::thread> threads;
  for (double& slot : cost) {
    threads.emplace_back([&] { slot = find_blend(offers, {}, Objective::least_cost, 1.8, 0.65).cost; });
  }
  for (std::thread& thread : threads) thread.join();
  for (const double value : cost) EXPECT_EQ(value, cost[0]);
}

TEST(Soak, TakesWhatIsMissingAndLeavesABathOver) {
  const Blend dry = mix(std::vector<Part>{{*find_typical("wheat-straw"), 135.0}});  // 1 m3, 121.5 kg dry
  const SoakPlan plan = plan_soak(dry, 0.65, {});
  EXPECT_NEAR(plan.water_taken_kg, 121.5 / 0.35 - 135.0, 1e-9);
  EXPECT_NEAR(plan.water_to_draw_kg, plan.water_taken_kg + 200.0, 1e-9);
  EXPECT_EQ(plan.batches, 10);
  EXPECT_NEAR(plan.time_s, 24000.0, 1e-9);
  EXPECT_FALSE(plan.too_wet_already);
}

TEST(Soak, NeedsNoBathForWetMaterial) {
  const Blend wet = mix(std::vector<Part>{{*find_typical("cattle-manure"), 100.0}});
  const SoakPlan plan = plan_soak(wet, 0.65, {});
  EXPECT_TRUE(plan.too_wet_already);
  EXPECT_EQ(plan.batches, 0);
  EXPECT_EQ(plan.water_to_draw_kg, 0.0);
}

TEST(Soak, RefusesAnEmptyBath) {
  const Blend dry = mix(std::vector<Part>{{*find_typical("wheat-straw"), 135.0}});
  Bath bath;
  bath.volume_m3 = 0.0;
  bath.load_share = -1.0;
  try {
    static_cast<void>(plan_soak(dry, 0.65, bath));
    FAIL() << "took it";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().size(), 2U);
  }
}

}  // namespace
}  // namespace stillheap::material
