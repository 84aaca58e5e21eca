#include <algorithm>
#include <cmath>

#include "material/limit.hpp"

// Explaining a contradiction.
//  1. Deletion filter: drop limits one by one; one whose loss makes the rest possible is put back. What stays cannot
//  all
//     hold, yet any part of it can (an irreducible set; Chinneck & Dravnieks 1991, from memory).
//  2. Elastic programme: every limit may be broken by a slack; the least sum of slacks, each scaled by the size of its
//  own
//     limit, shows which limits give most cheaply when they give together.
//  3. For each limit found either way, how far it must move alone: bisection on its value, everything else held.

namespace stillheap::material {
namespace {

using Rows = std::vector<ProgramRow>;

Rows to_rows(std::span<const Limit> limits, const Recipe& recipe) {
  Rows rows;
  for (const Limit& limit : limits) rows.push_back(to_row(limit, recipe));
  return rows;
}

bool possible(std::span<const ProgramRow> rows, std::size_t columns) {
  return minimise(rows, std::vector<double>(columns, 0.0)).has_value();
}

std::vector<Limit> irreducible(std::span<const Limit> limits, const Recipe& recipe) {
  std::vector<Limit> kept(limits.begin(), limits.end());
  for (std::size_t i = 0; i < kept.size();) {
    std::vector<Limit> without = kept;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    if (possible(to_rows(without, recipe), recipe.offers.size() + 1)) {
      ++i;
    } else {
      kept = without;
    }
  }
  return kept;
}

/// Size of a limit's row, so that slacks of kilograms and of cubic metres can be added up.
double size_of(const ProgramRow& row, const std::vector<double>& typical_kg) {
  double size = 0.0;
  for (std::size_t j = 0; j < row.weight.size(); ++j) size += std::abs(row.weight[j]) * typical_kg[j];
  return std::max(size, 1e-12);
}

/// Masses of the elastic programme's answer; every limit is soft but the volume.
std::vector<double> elastic(std::span<const Limit> limits, const Recipe& recipe) {
  const std::size_t columns = recipe.offers.size() + 1;
  Rows rows = to_rows(limits, recipe);
  const auto volume =
      std::find_if(limits.begin(), limits.end(), [](const Limit& l) { return l.bound == Bound::volume; });
  std::vector<double> typical_kg;
  for (const Offer& offer : recipe.offers) typical_kg.push_back(volume->value * offer.feedstock.bulk_density_kg_m3);
  typical_kg.push_back(*std::max_element(typical_kg.begin(), typical_kg.end()));
  std::vector<double> objective(columns + rows.size(), 0.0);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double size = size_of(rows[i], typical_kg);
    rows[i].weight.resize(columns + rows.size(), 0.0);
    if (limits[i].bound == Bound::volume) continue;
    rows[i].weight[columns + i] = is_lower(limits[i].bound) ? size : -size;
    objective[columns + i] = 1.0;
  }
  std::vector<double> kg = minimise(rows, objective).value_or(std::vector<double>(columns, 0.0));
  kg.resize(columns);
  return kg;
}

/// The limit's own quantity for given masses.
double reached(const Limit& limit, const Recipe& recipe, const std::vector<double>& kg) {
  if (limit.bound == Bound::stock || limit.bound == Bound::at_least) return kg[limit.offer];
  // A row is linear in the limit's value: row(v) = a - v b, so the quantity a / b follows from the rows at 0 and 1.
  const auto at = [&](double value) {
    const ProgramRow row = to_row({limit.bound, value, limit.offer}, recipe);
    double sum = 0.0;
    for (std::size_t j = 0; j < kg.size(); ++j) sum += row.weight[j] * kg[j];
    return sum;
  };
  if (limit.bound == Bound::volume) return at(0.0);
  return at(0.0) / (at(0.0) - at(1.0));
}

/// How far a limit can be thought to give: C:N of pure wood, all pores, every kilogram in the volume.
double farthest(const Limit& limit, double most_kg) {
  switch (limit.bound) {
    case Bound::stock:
      return most_kg;
    case Bound::carbon_to_nitrogen_high:
      return 1e5;
    case Bound::conductivity_high:
      return 100.0;
    case Bound::moisture_high:
    case Bound::air_high:
      return 1.0;
    case Bound::air_low:
      return -10.0;
    default:
      return 0.0;
  }
}

struct Reach {
  bool alone = false;
  double value = 0.0;
};

Reach reach_volume(const std::vector<Limit>& others, const Recipe& recipe, double asked) {
  const Rows rows = to_rows(others, recipe);
  const std::vector<double> volume = volumes(recipe);
  const auto least = minimise(rows, volume);
  if (!least) return {};
  const Limit limit{Bound::volume, asked};
  const double low = reached(limit, recipe, *least);
  if (low > asked) return {true, low};
  Rows capped = rows;
  capped.push_back({volume, -no_bound, asked});
  std::vector<double> against = volume;
  for (double& v : against) v = -v;
  const auto most = minimise(capped, against);
  return most ? Reach{true, reached(limit, recipe, *most)} : Reach{};
}

Reach reach(std::span<const Limit> limits, std::size_t which, const Recipe& recipe, double most_kg) {
  std::vector<Limit> others(limits.begin(), limits.end());
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(which));
  const Limit asked = limits[which];
  if (asked.bound == Bound::volume) return reach_volume(others, recipe, asked.value);
  Rows rows = to_rows(others, recipe);
  rows.emplace_back();
  const auto possible_at = [&](double value) {
    rows.back() = to_row({asked.bound, value, asked.offer}, recipe);
    return possible(rows, recipe.offers.size() + 1);
  };
  double good = farthest(asked, most_kg);
  double bad = asked.value;
  if (!possible_at(good)) return {};
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (good + bad);
    (possible_at(middle) ? good : bad) = middle;
  }
  return {true, good};
}

bool broken(const Limit& limit, double value) {
  const double slack = 1e-6 * std::max(1.0, std::abs(limit.value));
  if (limit.bound == Bound::volume) return false;
  return is_lower(limit.bound) ? value < limit.value - slack : value > limit.value + slack;
}

bool same(const Limit& a, const Limit& b) { return a.bound == b.bound && a.offer == b.offer; }

}  // namespace

void explain(std::span<const Limit> limits, const Recipe& recipe, Found& found) {
  const std::vector<Limit> fighting = irreducible(limits, recipe);
  const std::vector<double> kg = elastic(limits, recipe);
  double most_kg = 1.0;
  for (const Limit& limit : limits) {
    if (limit.bound != Bound::volume) continue;
    for (const double volume : volumes(recipe)) {
      if (volume > 0.0) most_kg = std::max(most_kg, 2.0 * limit.value / volume);
    }
  }
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const bool fights =
        std::any_of(fighting.begin(), fighting.end(), [&](const Limit& l) { return same(l, limits[i]); });
    const double together = reached(limits[i], recipe, kg);
    if (!fights && !broken(limits[i], together)) continue;
    const Reach alone = reach(limits, i, recipe, most_kg);
    // Nothing at all meets every average: a volume that only helps at zero is no advice.
    if (limits[i].bound == Bound::volume && !(alone.alone && alone.value > 1e-6 * limits[i].value)) continue;
    const std::string name = describe(limits[i], recipe.offers);
    found.conflicts.push_back({name, limits[i].value, alone.alone ? alone.value : together, alone.alone});
    if (fights) found.fight.push_back(name);
  }
}

}  // namespace stillheap::material
