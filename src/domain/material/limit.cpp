#include "domain/material/limit.hpp"

#include "core/base/plain_number.hpp"

namespace stillheap::material {
namespace {

double dry(const Offer& offer) { return 1.0 - offer.feedstock.moisture_wet; }

/// Row of an average's limit: weight of each offer times (property - value), and what a kg of water brings.
template <typename Weight>
ProgramRow average_row(const Recipe& recipe, Weight weight, double water, bool lower) {
  ProgramRow row;
  for (const Offer& offer : recipe.offers) row.weight.push_back(weight(offer));
  row.weight.push_back(water);
  (lower ? row.lower : row.upper) = 0.0;
  return row;
}

ProgramRow moisture_row(const Limit& limit, const Recipe& recipe) {
  const double m = limit.value;
  ProgramRow row = average_row(
      recipe, [m](const Offer& offer) { return offer.feedstock.moisture_wet - m; }, 1.0 - m, false);
  if (limit.bound == Bound::soaking) row.lower = 0.0;
  return row;
}

ProgramRow carbon_row(const Limit& limit, const Recipe& recipe) {
  const auto weight = [&limit](const Offer& offer) {
    return dry(offer) * (offer.feedstock.carbon_dry - limit.value * offer.feedstock.nitrogen_dry);
  };
  return average_row(recipe, weight, 0.0, is_lower(limit.bound));
}

/// Air is the volume less the particles' and the water's own: volume - filled >= value * volume.
ProgramRow air_row(const Limit& limit, const Recipe& recipe) {
  const ParticleDensity density;
  const auto weight = [&](const Offer& offer) {
    const Feedstock& f = offer.feedstock;
    const double filled = f.moisture_wet / density.water_kg_m3 +
                          dry(offer) * ((1.0 - f.ash_dry) / density.organic_kg_m3 + f.ash_dry / density.mineral_kg_m3);
    return (1.0 - limit.value) * recipe.mixing_volume_ratio / f.bulk_density_kg_m3 - filled;
  };
  return average_row(recipe, weight, -1.0 / density.water_kg_m3, is_lower(limit.bound));
}

ProgramRow salt_row(const Limit& limit, const Recipe& recipe) {
  const auto weight = [&limit](const Offer& offer) {
    return dry(offer) * (offer.feedstock.conductivity_s_m - limit.value);
  };
  return average_row(recipe, weight, 0.0, is_lower(limit.bound));
}

ProgramRow purchase_row(const Limit& limit, const Recipe& recipe) {
  ProgramRow row;
  row.weight.assign(recipe.offers.size() + 1, 0.0);
  row.weight[limit.offer] = 1.0;
  (is_lower(limit.bound) ? row.lower : row.upper) = limit.value;
  return row;
}

std::string number(double value) { return plain::to_text(value, 4); }

}  // namespace

bool is_lower(Bound bound) {
  switch (bound) {
    case Bound::at_least:
    case Bound::carbon_to_nitrogen_low:
    case Bound::air_low:
      return true;
    default:
      return false;
  }
}

std::vector<Limit> list_limits(std::span<const Offer> offers, const Limits& limits, double volume_m3,
                               double moisture_target_wet) {
  std::vector<Limit> list;
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (offers[i].stock_kg) list.push_back({Bound::stock, *offers[i].stock_kg, i});
  }
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (offers[i].at_least_kg > 0.0) list.push_back({Bound::at_least, offers[i].at_least_kg, i});
  }
  list.push_back({Bound::conductivity_high, limits.conductivity_max_s_m});
  list.push_back({Bound::air_high, limits.free_air_space.high});
  list.push_back({Bound::air_low, limits.free_air_space.low});
  list.push_back({Bound::soaking, moisture_target_wet});
  list.push_back({Bound::moisture_high, limits.moisture_wet.high});
  list.push_back({Bound::carbon_to_nitrogen_low, limits.carbon_to_nitrogen.low});
  list.push_back({Bound::carbon_to_nitrogen_high, limits.carbon_to_nitrogen.high});
  list.push_back({Bound::volume, volume_m3});
  return list;
}

std::vector<double> volumes(const Recipe& recipe) {
  std::vector<double> volume;
  for (const Offer& offer : recipe.offers) {
    volume.push_back(recipe.mixing_volume_ratio / offer.feedstock.bulk_density_kg_m3);
  }
  volume.push_back(0.0);
  return volume;
}

ProgramRow to_row(const Limit& limit, const Recipe& recipe) {
  switch (limit.bound) {
    case Bound::stock:
    case Bound::at_least:
      return purchase_row(limit, recipe);
    case Bound::soaking:
    case Bound::moisture_high:
      return moisture_row(limit, recipe);
    case Bound::carbon_to_nitrogen_low:
    case Bound::carbon_to_nitrogen_high:
      return carbon_row(limit, recipe);
    case Bound::air_low:
    case Bound::air_high:
      return air_row(limit, recipe);
    case Bound::conductivity_high:
      return salt_row(limit, recipe);
    case Bound::volume:
      break;
  }
  return {volumes(recipe), limit.value, limit.value};
}

std::array<std::vector<ProgramRow>, 2> both_ways(std::span<const Limit> limits, const Recipe& recipe) {
  std::array<std::vector<ProgramRow>, 2> ways;
  auto& [soaked, unsoaked] = ways;
  soaked.reserve(limits.size());
  for (const Limit& limit : limits) soaked.push_back(to_row(limit, recipe));
  unsoaked = soaked;
  for (std::size_t i = 0; i < limits.size(); ++i) {
    if (limits[i].bound == Bound::soaking) unsoaked[i].upper = no_bound;
  }
  ProgramRow no_water{std::vector<double>(recipe.offers.size() + 1, 0.0), 0.0, 0.0};
  no_water.weight.back() = 1.0;
  unsoaked.push_back(no_water);
  return ways;
}

std::string describe(const Limit& limit, std::span<const Offer> offers) {
  switch (limit.bound) {
    case Bound::stock:
      return "stock of " + offers[limit.offer].feedstock.id + " at most " + number(limit.value) + " kg";
    case Bound::at_least:
      return offers[limit.offer].feedstock.id + " at least " + number(limit.value) + " kg";
    case Bound::volume:
      return "volume of " + number(limit.value) + " m3";
    case Bound::soaking:
      return "soaking to " + number(100.0 * limit.value) + " % moisture";
    case Bound::moisture_high:
      return "moisture at most " + number(100.0 * limit.value) + " %";
    case Bound::carbon_to_nitrogen_low:
      return "carbon to nitrogen at least " + number(limit.value);
    case Bound::carbon_to_nitrogen_high:
      return "carbon to nitrogen at most " + number(limit.value);
    case Bound::air_low:
      return "free air space at least " + number(100.0 * limit.value) + " %";
    case Bound::air_high:
      return "free air space at most " + number(100.0 * limit.value) + " %";
    case Bound::conductivity_high:
      return "conductivity at most " + number(10.0 * limit.value) + " dS/m";
  }
  return {};
}

}  // namespace stillheap::material
