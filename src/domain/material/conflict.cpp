#include <algorithm>
#include <cmath>

#include "domain/material/limit.hpp"

// Explaining a contradiction.
//  1. Deletion filter: drop limits one by one; one whose loss makes the rest possible is put back. What stays cannot
//  all
//     hold, yet any part of it can (an irreducible set; Chinneck & Dravnieks 1991, from memory).
//  2. Elastic programme: every limit may be broken by a slack; the least sum of slacks, each scaled by the size of its
//  own
//     limit, shows which limits give most cheaply when they give together.
//  3. For each limit found either way, how far it must move alone, everything else held: bisection on its value, except
//     for the two that can be missed on either side, volume and soaking.
// "Possible" always means: with water up to the target, or without any (see both_ways).

namespace stillheap::material {
namespace {

using Rows = std::vector<ProgramRow>;

bool possible(const Rows& rows, std::size_t columns) {
  return minimise(rows, std::vector<double>(columns, 0.0)).has_value();
}

bool possible(std::span<const Limit> limits, const Recipe& recipe) {
  const auto ways = both_ways(limits, recipe);
  const std::size_t columns = recipe.offers.size() + 1;
  return possible(ways[0], columns) || possible(ways[1], columns);
}

std::vector<Limit> without(std::span<const Limit> limits, std::size_t which) {
  std::vector<Limit> rest(limits.begin(), limits.end());
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(which));
  return rest;
}

std::vector<Limit> irreducible(std::span<const Limit> limits, const Recipe& recipe) {
  std::vector<Limit> kept(limits.begin(), limits.end());
  for (std::size_t i = 0; i < kept.size();) {
    const std::vector<Limit> rest = without(kept, i);
    if (possible(rest, recipe)) {
      ++i;
    } else {
      kept = rest;
    }
  }
  return kept;
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

double volume_asked(std::span<const Limit> limits) {
  return std::find_if(limits.begin(), limits.end(), [](const Limit& l) { return l.bound == Bound::volume; })->value;
}

/// Mass of each column that would fill the whole volume; water counts as the heaviest.
std::vector<double> filling_kg(std::span<const Limit> limits, const Recipe& recipe) {
  std::vector<double> kg;
  for (const double volume : volumes(recipe)) kg.push_back(volume > 0.0 ? volume_asked(limits) / volume : 0.0);
  kg.back() = *std::max_element(kg.begin(), kg.end());
  return kg;
}

/// Size of a limit's row, so that slacks of kilograms and of cubic metres can be added up.
double size_of(const ProgramRow& row, const std::vector<double>& kg) {
  double size = 0.0;
  for (std::size_t j = 0; j < kg.size(); ++j) size += std::abs(row.weight[j]) * kg[j];
  return std::max(size, 1e-12);
}

struct Elastic {
  double slack = no_bound;
  std::vector<double> kg;
};

/// One way with two slacks a limit, up and down; the volume stays hard.
Elastic elastic_way(Rows rows, std::span<const Limit> limits, const std::vector<double>& filling) {
  const std::size_t columns = filling.size();
  std::vector<double> objective(columns + 2 * limits.size(), 0.0);
  for (ProgramRow& row : rows) row.weight.resize(objective.size(), 0.0);
  for (std::size_t i = 0; i < limits.size(); ++i) {
    if (limits[i].bound == Bound::volume) continue;
    const double size = size_of(rows[i], filling);
    rows[i].weight[columns + 2 * i] = size;
    rows[i].weight[columns + 2 * i + 1] = -size;
    objective[columns + 2 * i] = 1.0;
    objective[columns + 2 * i + 1] = 1.0;
  }
  const auto found = minimise(rows, objective);
  if (!found) return {};
  Elastic answer{0.0, {found->begin(), found->begin() + static_cast<std::ptrdiff_t>(columns)}};
  for (std::size_t j = columns; j < found->size(); ++j) answer.slack += (*found)[j];
  return answer;
}

std::vector<double> elastic(std::span<const Limit> limits, const Recipe& recipe) {
  const auto ways = both_ways(limits, recipe);
  const std::vector<double> filling = filling_kg(limits, recipe);
  const Elastic soaked = elastic_way(ways[0], limits, filling);
  const Elastic unsoaked = elastic_way(ways[1], limits, filling);
  return unsoaked.slack < soaked.slack ? unsoaked.kg : soaked.kg;
}

bool broken(const Limit& limit, double value, bool soaked) {
  const double miss = value - limit.value;
  const double slack = 1e-6 * std::max(1.0, std::abs(limit.value));
  if (limit.bound == Bound::volume) return false;
  if (limit.bound == Bound::soaking) return miss < -slack || (soaked && miss > slack);
  return is_lower(limit.bound) ? miss < -slack : miss > slack;
}

/// How far a limit can be thought to give: C:N of pure wood, all pores, twice what fills the volume.
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

template <typename Possible>
double bisect(double good, double bad, Possible possible_at) {
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (good + bad);
    (possible_at(middle) ? good : bad) = middle;
  }
  return good;
}

/// Volumes that the other limits allow in one way are an interval; its end nearest to what was asked.
Reach reach_volume(const Rows& rows, const Limit& asked, const Recipe& recipe) {
  std::vector<double> volume = volumes(recipe);
  const auto least = minimise(rows, volume);
  if (!least) return {};
  const double low = reached(asked, recipe, *least);
  if (low > asked.value) return {true, low};
  Rows capped = rows;
  capped.push_back({volume, -no_bound, asked.value});
  for (double& v : volume) v = -v;
  const auto most = minimise(capped, volume);
  return most ? Reach{true, reached(asked, recipe, *most)} : Reach{};
}

/// Moistures that the other limits allow with any water are an interval too.
Reach reach_soaking(const Rows& rows, const Limit& asked, const Recipe& recipe) {
  const std::size_t columns = recipe.offers.size() + 1;
  if (!possible(rows, columns)) return {};
  Rows bound = rows;
  bound.emplace_back();
  const auto possible_below = [&](double value) {
    bound.back() = to_row({Bound::moisture_high, value}, recipe);
    return possible(bound, columns);
  };
  const auto possible_above = [&](double value) {
    bound.back() = to_row({Bound::moisture_high, value}, recipe);
    bound.back().lower = 0.0;
    bound.back().upper = no_bound;
    return possible(bound, columns);
  };
  if (!possible_below(asked.value)) return {true, bisect(1.0, asked.value, possible_below)};
  return {true, bisect(0.0, asked.value, possible_above)};
}

Reach nearer(Reach a, Reach b, double asked) {
  if (!a.alone || !b.alone) return a.alone ? a : b;
  return std::abs(a.value - asked) <= std::abs(b.value - asked) ? a : b;
}

Reach reach(std::span<const Limit> limits, std::size_t which, const Recipe& recipe, double most_kg) {
  const Limit asked = limits[which];
  const std::vector<Limit> others = without(limits, which);
  const auto ways = both_ways(others, recipe);
  if (asked.bound == Bound::soaking) return reach_soaking(ways[0], asked, recipe);
  if (asked.bound == Bound::volume) {
    return nearer(reach_volume(ways[0], asked, recipe), reach_volume(ways[1], asked, recipe), asked.value);
  }
  std::vector<Limit> moved(limits.begin(), limits.end());
  const auto possible_at = [&](double value) {
    moved[which].value = value;
    return possible(moved, recipe);
  };
  const double end = farthest(asked, most_kg);
  if (!possible_at(end)) return {};
  return {true, bisect(end, asked.value, possible_at)};
}

bool same(const Limit& a, const Limit& b) { return a.bound == b.bound && a.offer == b.offer; }

}  // namespace

void explain(std::span<const Limit> limits, const Recipe& recipe, Found& found) {
  const std::vector<Limit> fighting = irreducible(limits, recipe);
  const std::vector<double> kg = elastic(limits, recipe);
  const std::vector<double> filling = filling_kg(limits, recipe);
  const double most_kg = 2.0 * filling.back();
  const bool soaked = kg.back() > 1e-6 * filling.back();
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const bool fights =
        std::any_of(fighting.begin(), fighting.end(), [&](const Limit& l) { return same(l, limits[i]); });
    const double together = reached(limits[i], recipe, kg);
    const bool gives = broken(limits[i], together, soaked);
    if (!fights && !gives) continue;
    const Reach alone = reach(limits, i, recipe, most_kg);
    // Nothing at all meets every average: a volume that only helps at zero is no advice.
    if (limits[i].bound == Bound::volume && !(alone.alone && alone.value > 1e-6 * limits[i].value)) continue;
    const std::string name = describe(limits[i], recipe.offers);
    if (fights) found.fight.push_back(name);
    // One that need not give when they give together, and does not help when it gives alone, is no advice either.
    if (!alone.alone && !gives) continue;
    found.conflicts.push_back({name, limits[i].value, alone.alone ? alone.value : together, alone.alone});
  }
}

}  // namespace stillheap::material
