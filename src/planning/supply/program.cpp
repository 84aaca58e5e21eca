#include "planning/supply/program.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillheap::supply {
namespace {

constexpr double no_end = std::numeric_limits<double>::infinity();
// A row that an answer misses by rounding of the simplex alone must not cost a filling.
constexpr double slack = 1e-7;

Columns columns_of(const Wish& wish, const Relief& relief) {
  Columns at;
  at.parts = parts(wish.year);
  const auto take = [&](int columns) {
    const int first = at.count;
    at.count += columns;
    return first;
  };
  at.fills = take(at.parts);
  at.places = take(1);
  at.busiest = take(1);
  at.stock = take(at.parts);
  for (std::size_t i = 0; i < wish.seasons.size(); ++i) at.material.push_back(take(at.parts));
  if (relief.has(Limit::wanted)) at.gap = take(at.parts);
  if (relief.has(Limit::hours)) at.overtime = take(at.parts);
  if (relief.has(Limit::store_room)) at.room = take(1);
  if (relief.has(Limit::seasons))
    for (std::size_t i = 0; i < wish.seasons.size(); ++i) at.bought.push_back(take(at.parts));
  return at;
}

struct Builder {
  const Wish& wish;
  const Relief& relief;
  Lags lags;
  Model model;

  [[nodiscard]] int next(int part, int ahead) const { return part_after(wish.year, part, ahead); }
  [[nodiscard]] int fill(int part) const { return model.at.fills + part; }

  void add(std::vector<cut::Entry> entries, double at_most) { hold(model, std::move(entries), at_most); }
  void add_season(std::size_t which);
  void add_supply();
  void add_places();
  void add_work();
};

/// Adds weights of the same column up, as GLPK takes each column of a row once.
std::vector<cut::Entry> dense(const std::vector<double>& weight_of_fill) {
  std::vector<cut::Entry> entries;
  for (std::size_t j = 0; j < weight_of_fill.size(); ++j)
    if (weight_of_fill[j] != 0.0) entries.push_back({static_cast<int>(j), weight_of_fill[j]});
  return entries;
}

void Builder::add_places() {
  const int n = model.at.parts;
  for (int p = 0; p < n; ++p) {
    std::vector<double> weight(n, 0.0);
    for (int f = 0; f < n; ++f) {
      for (int k = 0; k < lags.free[f]; ++k)
        if (next(f, k) == p) weight[f] += 1.0;
    }
    std::vector<cut::Entry> entries = dense(weight);
    entries.push_back({model.at.places, -1.0});
    add(entries, 0.0);
  }
  if (wish.most_places > 0 && !relief.has(Limit::places)) add({{model.at.places, 1.0}}, wish.most_places);
  for (int p = 0; p < n; ++p)
    if (!wish.may_fill[p] && !relief.has(Limit::cold)) add({{fill(p), 1.0}}, 0.0);
}

void Builder::add_supply() {
  const int n = model.at.parts;
  double wanted_m3 = 0.0;
  for (const double wanted : wish.wanted_m3) wanted_m3 += wanted;
  for (int p = 0; p < n; ++p) {
    std::vector<double> weight(n, 0.0);
    for (int f = 0; f < n; ++f)
      if (next(f, lags.harvest[f]) == p) weight[f] -= wish.yield_m3;
    std::vector<cut::Entry> entries = dense(weight);
    if (n > 1) {
      entries.push_back({model.at.stock + p, 1.0});
      entries.push_back({model.at.stock + next(p, -1), -1.0});
    }
    if (model.at.gap >= 0) entries.push_back({model.at.gap + p, -1.0});
    add(entries, -wish.wanted_m3[p] + slack);
    double later_m3 = 0.0;
    const int wait = relief.has(Limit::store_days) ? n : lags.store[p];
    for (int k = 1; k <= wait; ++k) later_m3 += wish.wanted_m3[next(p, k)];
    add({{model.at.stock + p, 1.0}}, later_m3);
    if (model.at.room >= 0) {
      add({{model.at.stock + p, 1.0}, {model.at.room, -1.0}}, 0.0);
    } else if (std::isfinite(wish.store_m3)) {
      add({{model.at.stock + p, 1.0}}, wish.store_m3);
    }
  }
  // Follows from the rows above for whole fillings; said outright, it spares the search many nodes.
  if (model.at.gap >= 0) return;
  std::vector<cut::Entry> all;
  all.reserve(n);
  for (int p = 0; p < n; ++p) all.push_back({fill(p), 1.0});
  model.program.rows.push_back({all, std::ceil(wanted_m3 / wish.yield_m3 - 1e-6), no_end});
}

void Builder::add_season(std::size_t which) {
  const Season& season = wish.seasons[which];
  const int n = model.at.parts;
  const int store = model.at.material[which];
  for (int p = 0; p < n; ++p) {
    std::vector<cut::Entry> entries{{fill(p), season.per_fill_m3}};
    if (n > 1) {
      entries.push_back({store + p, 1.0});
      entries.push_back({store + next(p, -1), -1.0});
    }
    if (!model.at.bought.empty()) entries.push_back({model.at.bought[which] + p, -1.0});
    add(entries, season.arises_m3[p] + slack);
    double young_m3 = 0.0;
    for (int k = 0; k < n; ++k) {
      const int arose = next(p, -k);
      if (parts_within(wish.year, arose, season.keeps_days) > k) young_m3 += season.arises_m3[arose];
    }
    add({{store + p, 1.0}}, young_m3);
  }
}

void Builder::add_work() {
  const int n = model.at.parts;
  std::vector<std::vector<double>> of_fill;
  of_fill.reserve(n);
  for (int f = 0; f < n; ++f) of_fill.push_back(hours_of_fill(wish, lags, f));
  for (int p = 0; p < n; ++p) {
    std::vector<double> weight(n, 0.0);
    for (int f = 0; f < n; ++f) weight[f] = of_fill[f][p];
    std::vector<cut::Entry> entries = dense(weight);
    if (!wish.most_hours.empty()) {
      std::vector<cut::Entry> held = entries;
      if (model.at.overtime >= 0) held.push_back({model.at.overtime + p, -1.0});
      add(held, wish.most_hours[p] + slack);
    }
    entries.push_back({model.at.busiest, -1.0});
    add(entries, 0.0);
  }
}

}  // namespace

bool Relief::has(Limit limit) const noexcept {
  return std::find(gives_way.begin(), gives_way.end(), limit) != gives_way.end();
}

std::vector<double> hours_of_fill(const Wish& wish, const Lags& lags, int fill) {
  std::vector<double> hours(parts(wish.year), 0.0);
  const auto at = [&](int ahead) -> double& { return hours[part_after(wish.year, fill, ahead)]; };
  for (const Job& job : wish.work.jobs) at(parts_within(wish.year, fill, job.after_days)) += job.hours;
  const int harvest = lags.harvest[fill];
  at(harvest) += wish.work.harvest_hours;
  for (int k = 0; k < harvest; ++k)
    at(k) += wish.work.daily_hours * length_days(wish.year, part_after(wish.year, fill, k));
  return hours;
}

Model model_of(const Wish& wish, const Relief& relief) {
  Builder builder{wish, relief, lags_of(wish), {columns_of(wish, relief), {}}};
  cut::IntegerProgram& program = builder.model.program;
  program.cost.assign(builder.model.at.count, 0.0);
  program.divisible.assign(builder.model.at.count, true);
  for (int p = 0; p < builder.model.at.parts; ++p) program.divisible[builder.fill(p)] = false;
  program.divisible[builder.model.at.places] = false;
  builder.add_places();
  builder.add_supply();
  for (std::size_t i = 0; i < wish.seasons.size(); ++i) builder.add_season(i);
  builder.add_work();
  return builder.model;
}

void hold(Model& model, std::vector<cut::Entry> entries, double at_most) {
  model.program.rows.push_back({std::move(entries), -no_end, at_most});
}

}  // namespace stillheap::supply
