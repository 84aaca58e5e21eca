#include "domain/material/finder.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/error.hpp"
#include "domain/material/limit.hpp"

namespace stillheap::material {
namespace {

void check_range(const char* name, Range range, std::vector<Problem>& problems) {
  if (range.low <= range.high) return;
  problems.push_back({std::string("limits.") + name, "runs from high to low", "give the lower end first"});
}

void check(std::span<const Offer> offers, const Limits& limits, double volume_m3, double target) {
  std::vector<Problem> problems;
  if (offers.empty()) problems.push_back({"offers", "are empty", "offer at least one feedstock"});
  if (!(volume_m3 > 0.0)) problems.push_back({"volume", "is not above 0 m3", "give the volume to fill"});
  check_range("carbon_to_nitrogen", limits.carbon_to_nitrogen, problems);
  check_range("moisture", limits.moisture_wet, problems);
  check_range("free_air_space", limits.free_air_space, problems);
  if (!(target >= limits.moisture_wet.low && target <= limits.moisture_wet.high && target < 1.0)) {
    problems.push_back({"moisture_target", "is " + std::to_string(100.0 * target) + " %, outside the moisture range",
                        "choose a target inside limits.moisture"});
  }
  for (const Offer& offer : offers) {
    if (offer.stock_kg && *offer.stock_kg < offer.at_least_kg) {
      problems.push_back({"offer " + offer.feedstock.id, "wants at least more than its stock", "raise the stock"});
    }
    if (!(offer.price_per_kg >= 0.0)) {
      problems.push_back({"offer " + offer.feedstock.id, "has a price below 0", "use a price of 0 or more"});
    }
    if (!(offer.feedstock.bulk_density_kg_m3 > 0.0)) {
      problems.push_back({"offer " + offer.feedstock.id, "has no bulk density", "give kg/m3, loosely filled"});
    }
  }
  if (!problems.empty()) throw InputError(problems);
}

std::vector<double> prices(std::span<const Offer> offers) {
  std::vector<double> price;
  for (const Offer& offer : offers) price.push_back(offer.price_per_kg);
  price.push_back(0.0);
  return price;
}

/// Minus one a kilogram of what lies in stock.
std::vector<double> against_stock(std::span<const Offer> offers) {
  std::vector<double> weight;
  for (const Offer& offer : offers) weight.push_back(offer.stock_kg ? -1.0 : 0.0);
  weight.push_back(0.0);
  return weight;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t j = 0; j < b.size(); ++j) sum += a[j] * b[j];
  return sum;
}

/// Goals in falling order of weight: each is held while the next is improved.
class Search {
 public:
  explicit Search(std::vector<ProgramRow> rows) : rows_(std::move(rows)) {}

  [[nodiscard]] bool improve(const std::vector<double>& goal) {
    const auto found = minimise(rows_, goal);
    if (!found) return false;
    best_ = *found;
    reached_.push_back(dot(goal, best_));
    // A hair of room, so that rounding does not close the door on what was just found.
    rows_.push_back({goal, -no_bound, reached_.back() + 1e-7 * (1.0 + std::abs(reached_.back()))});
    return true;
  }

  /// Adds two columns whose sum is how far `row` is from nought, and makes that least.
  void centre(ProgramRow row) {
    const std::size_t columns = row.weight.size();
    for (ProgramRow& other : rows_) other.weight.resize(columns + 2, 0.0);
    row.weight.insert(row.weight.end(), {-1.0, 1.0});
    row.lower = 0.0;
    row.upper = 0.0;
    rows_.push_back(row);
    std::vector<double> goal(columns + 2, 0.0);
    goal[columns] = 1.0;
    goal[columns + 1] = 1.0;
    const auto found = minimise(rows_, goal);
    if (found) best_.assign(found->begin(), found->begin() + static_cast<std::ptrdiff_t>(columns));
  }

  [[nodiscard]] const std::vector<double>& best() const noexcept { return best_; }

  /// Goal by goal, is this better than the other by more than rounding?
  [[nodiscard]] bool beats(const Search& other) const {
    for (std::size_t i = 0; i < std::min(reached_.size(), other.reached_.size()); ++i) {
      const double gain = other.reached_[i] - reached_[i];
      if (std::abs(gain) > 1e-6 * (1.0 + std::abs(reached_[i]))) return gain > 0.0;
    }
    return false;
  }

 private:
  std::vector<ProgramRow> rows_;
  std::vector<double> best_;
  std::vector<double> reached_;
};

struct Goals {
  std::vector<std::vector<double>> in_order;
  ProgramRow middle;
};

std::optional<Search> search(const std::vector<ProgramRow>& rows, const Goals& goals) {
  Search found(rows);
  for (const auto& goal : goals.in_order) {
    if (!found.improve(goal)) return std::nullopt;
  }
  found.centre(goals.middle);
  return found;
}

Goals list_goals(const Recipe& recipe, const Limits& limits, Objective objective, double moisture_target_wet) {
  Goals goals;
  if (objective == Objective::use_up_stock) goals.in_order.push_back(against_stock(recipe.offers));
  goals.in_order.push_back(prices(recipe.offers));
  goals.in_order.push_back(to_row({Bound::soaking, moisture_target_wet}, recipe).weight);  // wetter than the target
  const double middle = 0.5 * (limits.carbon_to_nitrogen.low + limits.carbon_to_nitrogen.high);
  goals.middle = to_row({Bound::carbon_to_nitrogen_low, middle}, recipe);
  return goals;
}

void fill(Found& found, std::span<const Offer> offers, const Limits& limits, const std::vector<double>& kg) {
  const double crumb_kg = 1e-6 * *std::max_element(kg.begin(), kg.end());  // below this it is rounding, not a purchase
  std::vector<Part> parts;
  for (std::size_t i = 0; i < offers.size(); ++i) {
    const double mass = kg[i] > crumb_kg ? kg[i] : 0.0;
    found.mass_wet_kg.push_back(mass);
    found.cost += mass * offers[i].price_per_kg;
    if (mass > 0.0) parts.push_back({offers[i].feedstock, mass});
  }
  found.water_kg = kg.back() > crumb_kg ? kg.back() : 0.0;
  const Blend delivered = mix(parts, {}, limits.mixing_volume_ratio);
  const double soaked_kg = delivered.mass_wet_kg + found.water_kg;
  found.blend = at_moisture(delivered, 1.0 - delivered.mass_dry_kg / soaked_kg);
  found.feasible = true;
}

}  // namespace

Found find_blend(std::span<const Offer> offers, const Limits& limits, Objective objective, double volume_m3,
                 double moisture_target_wet) {
  check(offers, limits, volume_m3, moisture_target_wet);
  const Recipe recipe{offers, limits.mixing_volume_ratio};
  const std::vector<Limit> list = list_limits(offers, limits, volume_m3, moisture_target_wet);
  const Goals goals = list_goals(recipe, limits, objective, moisture_target_wet);
  const auto ways = both_ways(list, recipe);
  const auto soaked = search(ways[0], goals);
  const auto unsoaked = search(ways[1], goals);
  Found found;
  if (!soaked && !unsoaked) {
    explain(list, recipe, found);
    return found;
  }
  const bool leave_dry = unsoaked && (!soaked || unsoaked->beats(*soaked));
  fill(found, offers, limits, leave_dry ? unsoaked->best() : soaked->best());
  return found;
}

}  // namespace stillheap::material
