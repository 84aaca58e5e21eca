#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "domain/material/finder.hpp"

namespace stillheap::material {
namespace {

struct Order {
  std::vector<Offer> offers;
  Limits limits;
  Objective objective = Objective::least_cost;
  double volume_m3 = 1.0;
  double target = 0.65;
};

class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  double between(double low, double high) { return low + (high - low) * unit_(engine_); }

 private:
  std::mt19937 engine_;
  std::uniform_real_distribution<double> unit_{0.0, 1.0};
};

Order random_order(Dice& dice) {
  const auto& all = typical_feedstocks();
  Order order;
  const int count = static_cast<int>(dice.between(1.0, 6.0));
  for (int i = 0; i < count; ++i) {
    const auto which = static_cast<std::size_t>(dice.between(0.0, static_cast<double>(all.size()) - 1e-9));
    Offer offer{all[which], {}, 0.0, std::max(0.0, dice.between(-0.3, 1.0))};
    if (dice.between(0.0, 1.0) < 0.4) offer.stock_kg = dice.between(0.0, 400.0);
    if (dice.between(0.0, 1.0) < 0.2) offer.at_least_kg = dice.between(0.0, offer.stock_kg.value_or(100.0));
    order.offers.push_back(offer);
  }
  order.limits.carbon_to_nitrogen.low = dice.between(15.0, 35.0);
  order.limits.carbon_to_nitrogen.high = order.limits.carbon_to_nitrogen.low + dice.between(0.0, 30.0);
  order.limits.free_air_space.low = dice.between(0.2, 0.5);
  order.limits.free_air_space.high = order.limits.free_air_space.low + dice.between(0.0, 0.5);
  order.limits.conductivity_max_s_m = dice.between(0.1, 0.7);
  order.limits.moisture_wet = {0.55, 0.72};
  order.target = dice.between(0.56, 0.70);
  order.volume_m3 = dice.between(0.5, 3.5);
  order.objective = dice.between(0.0, 1.0) < 0.5 ? Objective::least_cost : Objective::use_up_stock;
  return order;
}

Found find(const Order& order) {
  return find_blend(order.offers, order.limits, order.objective, order.volume_m3, order.target);
}

/// Moves a limit to what the report calls reachable, and a hair further.
void grant(const Conflict& conflict, Order& order) {
  const auto is = [&](const char* start) { return conflict.limit.starts_with(start); };
  const double more = conflict.reachable + 1e-4 * std::abs(conflict.reachable) + 1e-9;
  const double less = conflict.reachable - 1e-4 * std::abs(conflict.reachable) - 1e-9;
  if (is("carbon to nitrogen at most")) order.limits.carbon_to_nitrogen.high = more;
  if (is("carbon to nitrogen at least")) order.limits.carbon_to_nitrogen.low = less;
  if (is("free air space at most")) order.limits.free_air_space.high = more;
  if (is("free air space at least")) order.limits.free_air_space.low = less;
  if (is("conductivity")) order.limits.conductivity_max_s_m = more;
  if (is("volume")) order.volume_m3 = conflict.reachable > conflict.asked ? more : less;
  if (is("moisture at most")) order.limits.moisture_wet.high = more;
  if (is("soaking")) {
    order.target = conflict.reachable > conflict.asked ? more : less;
    order.limits.moisture_wet.low = std::min(order.limits.moisture_wet.low, order.target);
    order.limits.moisture_wet.high = std::max(order.limits.moisture_wet.high, order.target);
  }
  for (Offer& offer : order.offers) {
    if (is(("stock of " + offer.feedstock.id + " ").c_str())) offer.stock_kg = more;
    if (is((offer.feedstock.id + " at least").c_str())) offer.at_least_kg = std::max(0.0, less);
  }
}

bool has_repeated_offer(const Order& order) {
  for (const Offer& a : order.offers) {
    const auto same = [&](const Offer& b) { return a.feedstock.id == b.feedstock.id; };
    if (std::count_if(order.offers.begin(), order.offers.end(), same) > 1) return true;
  }
  return false;
}

bool within(const Blend& blend, const Order& order) {
  const Limits& limits = order.limits;
  const auto inside = [](double value, double low, double high, double slack) {
    return value >= low - slack && value <= high + slack;
  };
  return inside(blend.carbon_to_nitrogen, limits.carbon_to_nitrogen.low, limits.carbon_to_nitrogen.high, 1e-3) &&
         inside(blend.free_air_space, limits.free_air_space.low, limits.free_air_space.high, 1e-5) &&
         inside(blend.moisture_wet, order.target, limits.moisture_wet.high, 1e-5) &&
         inside(blend.conductivity_s_m, 0.0, limits.conductivity_max_s_m, 1e-5) &&
         inside(blend.volume_m3, order.volume_m3, order.volume_m3, 1e-5 * order.volume_m3);
}

TEST(Conflicts, HoldWhatTheyPromiseForFiveHundredOrders) {
  Dice dice(20240607);
  int feasible = 0;
  int mended_alone = 0;
  int mended_together = 0;
  for (int i = 0; i < 500; ++i) {
    const Order order = random_order(dice);
    const Found found = find(order);
    if (found.feasible) {
      ++feasible;
      EXPECT_TRUE(within(found.blend, order)) << "order " << i;
      continue;
    }
    ASSERT_FALSE(found.conflicts.empty()) << "order " << i;
    ASSERT_FALSE(found.fight.empty()) << "order " << i;
    if (has_repeated_offer(order)) continue;  // names are then not enough to grant by
    Order together = order;
    bool any_alone = false;
    for (const Conflict& conflict : found.conflicts) {
      grant(conflict, together);
      if (!conflict.enough_alone) continue;
      any_alone = true;
      Order alone = order;
      grant(conflict, alone);
      EXPECT_TRUE(find(alone).feasible) << "order " << i << ": " << conflict.limit << " -> " << conflict.reachable;
      ++mended_alone;
    }
    if (any_alone) continue;
    EXPECT_TRUE(find(together).feasible) << "order " << i;
    ++mended_together;
  }
  EXPECT_GT(feasible, 50);
  EXPECT_GT(mended_alone, 50);
  EXPECT_GT(mended_together, 50);
}

}  // namespace
}  // namespace stillheap::material
