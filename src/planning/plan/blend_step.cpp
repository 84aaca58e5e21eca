#include "planning/plan/blend_step.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/base/error.hpp"
#include "core/base/plain_number.hpp"
#include "core/quantity/retold.hpp"
#include "planning/plan/count_step.hpp"

namespace stillheap::plan {
namespace {

std::string number(double value) { return plain::to_text(value, 3); }

std::vector<material::Part> parts_by_share(const site::Site& site) {
  std::vector<material::Part> parts;
  for (const auto& wish : site.blend.shares_by_mass) {
    const std::string& id = wish.first;
    const auto offer = std::find_if(site.offers.begin(), site.offers.end(),
                                    [&](const material::Offer& one) { return one.feedstock.id == id; });
    if (offer == site.offers.end()) {
      throw InputError(site::where(site, "blend.shares"), "\"" + id + "\" is no feedstock of this site",
                       "name a feedstock that the file lists");
    }
    if (wish.second > 0.0) parts.push_back({offer->feedstock, wish.second});
  }
  return parts;
}

std::vector<material::Part> parts_found(const site::Site& site, const material::Found& found) {
  std::vector<material::Part> parts;
  for (std::size_t i = 0; i < site.offers.size(); ++i) {
    if (found.mass_wet_kg[i] > 0.0) parts.push_back({site.offers[i].feedstock, found.mass_wet_kg[i]});
  }
  return parts;
}

std::string stock_words(double need_kg, double have_kg, UnitSystem units) {
  return quantity::format(need_kg, Dimension::mass, units) + " needed for all vessels, " +
         quantity::format(have_kg, Dimension::mass, units) + " in stock";
}

Warnings stock_warnings(const site::Site& site, const material::Blend& yard) {
  Warnings warnings;
  for (const material::Part& part : yard.parts) {
    for (const material::Offer& offer : site.offers) {
      if (offer.feedstock.id != part.feedstock.id || !offer.stock_kg || *offer.stock_kg >= part.mass_wet_kg) continue;
      warnings.push_back({"feedstock " + offer.feedstock.id, stock_words(part.mass_wet_kg, *offer.stock_kg, site.units),
                          "stock in the site file"});
    }
  }
  return warnings;
}

/// A conflict's number in the unit that its limit's words carry.
std::string as_limit(const material::Conflict& conflict, double value, UnitSystem units) {
  if (conflict.limit.starts_with("conductivity")) return quantity::format(value, Dimension::conductivity, units);
  if (conflict.limit.ends_with(" %")) return quantity::format(value, Dimension::fraction, units);
  if (conflict.limit.ends_with(" kg")) return quantity::format(value, Dimension::mass, units);
  return number(value);
}

InputError no_blend(const site::Site& site, const material::Found& found) {
  const std::string where = site::where(site, "blend");
  std::vector<Problem> problems;
  for (const material::Conflict& conflict : found.conflicts) {
    problems.push_back({where,
                        "no blend of these feedstocks meets \"" + quantity::retold(conflict.limit, site.units) +
                            "\" with the other limits",
                        "asked " + as_limit(conflict, conflict.asked, site.units) + ", reachable " +
                            as_limit(conflict, conflict.reachable, site.units) +
                            (conflict.enough_alone ? "; that alone is enough" : "")});
  }
  if (problems.empty()) {
    problems.push_back({where, "no blend of these feedstocks meets all limits", "widen a limit or add a feedstock"});
  }
  return InputError(std::move(problems));
}

double volume_m3(const site::Site& site, const std::vector<int>& counts) {
  double sum_m3 = 0.0;
  for (std::size_t i = 0; i < counts.size(); ++i) sum_m3 += counts[i] * vessel::material_volume_m3(site.vessels[i]);
  return sum_m3;
}

material::Found find(const site::Site& site, const std::vector<int>& counts) {
  std::vector<material::Offer> offers = site.offers;
  const int vessels = std::accumulate(counts.begin(), counts.end(), 0);
  // A site file says how much must go into each vessel, but how much is in stock for all.
  for (material::Offer& offer : offers) offer.at_least_kg *= vessels;
  return material::find_blend(offers, site.blend.limits, site.blend.objective, volume_m3(site, counts),
                              site.blend.moisture_target_wet);
}

/// How far the loose parts come down in the vessel, from the density that the site file says they have there.
void settle(const site::Site& site, Recipe& recipe) {
  if (!site.settled_density_kg_m3) return;
  const double soaked_kg_m3 = material::soaked_to(material::mix(recipe.parts), recipe.moisture_wet).bulk_density_kg_m3;
  recipe.volume_ratio = soaked_kg_m3 / *site.settled_density_kg_m3;
  constexpr double least = 0.4;  // chosen: pressed harder, shredded material holds no air
  constexpr double most =
      1.1;  // chosen: nothing lies looser in a vessel than in the pail, by more than the weighing errs
  if (recipe.volume_ratio >= least && recipe.volume_ratio <= most) return;
  const auto text = [&](double kg_m3) { return quantity::format(kg_m3, Dimension::density, site.units); };
  throw InputError(site::where(site, "fill.settled_density"),
                   "= " + text(*site.settled_density_kg_m3) + " does not fit this blend, which weighs " +
                       text(soaked_kg_m3) + " loose and soaked",
                   "give " + text(soaked_kg_m3 / most) + " to " + text(soaked_kg_m3 / least) + ", or leave it out");
}

std::map<std::string, double> shares_of(const Recipe& recipe) {
  double total_kg = 0.0;
  for (const material::Part& part : recipe.parts) total_kg += part.mass_wet_kg;
  std::map<std::string, double> shares;
  for (const material::Part& part : recipe.parts) shares[part.feedstock.id] += part.mass_wet_kg / total_kg;
  return shares;
}

}  // namespace

Recipe choose_recipe(const site::Site& site, const std::vector<int>& counts) {
  Recipe recipe;
  recipe.moisture_wet = site.blend.moisture_target_wet;
  if (!site.blend.shares_by_mass.empty()) {
    recipe.parts = parts_by_share(site);
    settle(site, recipe);
    recipe.warnings = stock_warnings(site, scaled_to(recipe, volume_m3(site, counts)));
    return recipe;
  }
  recipe.by_programme = true;
  recipe.found = find(site, counts);
  const bool lasts = recipe.found.feasible;
  if (!lasts) recipe.found = find(site, smallest_set(site.vessels));
  if (!recipe.found.feasible) throw no_blend(site, recipe.found);
  recipe.parts = parts_found(site, recipe.found);
  recipe.moisture_wet = std::max(recipe.moisture_wet, recipe.found.blend.moisture_wet);
  settle(site, recipe);
  if (!lasts) recipe.warnings = stock_warnings(site, scaled_to(recipe, volume_m3(site, counts)));
  return recipe;
}

material::Blend scaled_to(const Recipe& recipe, double volume_m3) {
  const material::Blend any = material::mix(recipe.parts, {}, recipe.volume_ratio);
  std::vector<material::Part> parts = recipe.parts;
  for (material::Part& part : parts) part.mass_wet_kg *= volume_m3 / any.volume_m3;
  return material::mix(parts, {}, recipe.volume_ratio);
}

double share_difference(const Recipe& a, const Recipe& b) {
  const auto first = shares_of(a);
  auto second = shares_of(b);
  double most = 0.0;
  for (const auto& [id, share] : first) {
    most = std::max(most, std::abs(share - second[id]));
    second.erase(id);
  }
  for (const auto& [id, share] : second) most = std::max(most, share);
  return most;
}

}  // namespace stillheap::plan
