#include "planning/supply/blocked.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "core/base/error.hpp"
#include "planning/supply/yard_plan.hpp"

namespace stillheap::supply {
namespace {

constexpr int most_nodes = 2000;  // chosen: a limit that the search cannot loosen in that many is not named
constexpr double trifle = 1e-5;   // below what a pail or a clock tells

/// Limits that the wish sets at all.
std::vector<Limit> limits_of(const Wish& wish) {
  std::vector<Limit> limits;
  if (wish.most_places > 0) limits.push_back(Limit::places);
  if (!wish.most_hours.empty()) limits.push_back(Limit::hours);
  if (!wish.seasons.empty()) limits.push_back(Limit::seasons);
  if (std::isfinite(wish.store_m3)) limits.push_back(Limit::store_room);
  limits.push_back(Limit::store_days);
  if (std::find(wish.may_fill.begin(), wish.may_fill.end(), false) != wish.may_fill.end())
    limits.push_back(Limit::cold);
  return limits;
}

/// What gives way costs about as much as the fillings it stands for, so that no limit gives more than it must.
void price(Model& model, const Wish& wish) {
  const Columns& at = model.at;
  std::vector<double>& cost = model.program.cost;
  cost[at.places] = 1.0;
  double fill_hours = wish.work.harvest_hours;
  for (const Job& job : wish.work.jobs) fill_hours += job.hours;
  for (int p = 0; p < at.parts; ++p) {
    if (at.overtime >= 0) cost[at.overtime + p] = 1.0 / std::max(0.1, fill_hours);
    if (!wish.may_fill[p]) cost[at.fills + p] = 1.0;
    for (std::size_t s = 0; s < at.bought.size(); ++s)
      cost[at.bought[s] + p] = 1.0 / std::max(trifle, wish.seasons[s].per_fill_m3);
  }
  if (at.room >= 0) cost[at.room] = 1.0 / wish.yield_m3;
}

struct Loosened {
  Columns at;
  cut::IntegerAnswer answer;
};

std::optional<Loosened> loosened(const Wish& wish, const std::vector<Limit>& limits) {
  Model model = model_of(wish, {limits});
  model.program.most_nodes = most_nodes;
  price(model, wish);
  try {
    if (auto answer = solve(model)) return Loosened{model.at, *std::move(answer)};
    return std::nullopt;
  } catch (const RunError&) {
    return std::nullopt;
  }
}

/// The shortest wait that does it, in steps of the year's parts.
double wait_needed(const Wish& wish) {
  Wish longer = wish;
  const double step = wish.year.days / parts(wish.year);
  while (longer.store_days < wish.year.days) {
    longer.store_days = std::min(wish.year.days, longer.store_days + step);
    if (loosened(longer, {})) break;
  }
  return longer.store_days;
}

std::vector<double> run(const std::vector<double>& values, int first, int count) {
  std::vector<double> part(values.begin() + first, values.begin() + first + count);
  for (double& value : part)
    if (value < trifle) value = 0.0;
  return part;
}

void add_listed(Way& way, Limit limit, std::size_t season, std::vector<double> by_part) {
  const double sum = std::accumulate(by_part.begin(), by_part.end(), 0.0);
  if (sum > 0.0) way.push_back({limit, season, sum, std::move(by_part)});
}

Way way_of(const Wish& wish, const std::vector<Limit>& limits, const Loosened& found) {
  const auto& [at, answer] = found;
  Way way;
  for (const Limit limit : limits) {
    switch (limit) {
      case Limit::wanted:
        break;
      case Limit::places:
        way.push_back({limit, 0, answer.values[at.places], {}});
        break;
      case Limit::hours:
        add_listed(way, limit, 0, run(answer.values, at.overtime, at.parts));
        break;
      case Limit::seasons:
        for (std::size_t s = 0; s < wish.seasons.size(); ++s)
          add_listed(way, limit, s, run(answer.values, at.bought[s], at.parts));
        break;
      case Limit::store_room:
        way.push_back({limit, 0, answer.values[at.room], {}});
        break;
      case Limit::store_days:
        way.push_back({limit, 0, limits.size() == 1 ? wait_needed(wish) : wish.year.days, {}});
        break;
      case Limit::cold: {
        std::vector<double> cold = run(answer.values, at.fills, at.parts);
        for (int p = 0; p < at.parts; ++p)
          if (wish.may_fill[p]) cold[p] = 0.0;
        add_listed(way, limit, 0, cold);
        break;
      }
    }
  }
  return way;
}

/// All limits give way; then each is put back unless the rest cannot do without it.
Way together(const Wish& wish, std::vector<Limit> limits) {
  std::optional<Loosened> found = loosened(wish, limits);
  if (!found) return {};
  for (const Limit limit : std::vector<Limit>(limits)) {
    std::vector<Limit> fewer = limits;
    fewer.erase(std::remove(fewer.begin(), fewer.end(), limit), fewer.end());
    if (auto still = loosened(wish, fewer)) {
      limits = fewer;
      found = std::move(still);
    }
  }
  return way_of(wish, limits, *found);
}

}  // namespace

std::vector<Way> ways_out(const Wish& wish) {
  check(wish);
  std::vector<Way> ways;
  if (loosened(wish, {})) return ways;
  const std::vector<Limit> limits = limits_of(wish);
  for (const Limit limit : limits) {
    if (const auto found = loosened(wish, {limit})) ways.push_back(way_of(wish, {limit}, *found));
  }
  if (ways.empty()) {
    Way way = together(wish, limits);
    if (!way.empty()) ways.push_back(std::move(way));
  }
  return ways;
}

}  // namespace stillheap::supply
