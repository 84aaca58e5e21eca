#include "planning/supply/yard_plan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/base/error.hpp"

namespace stillheap::supply {
namespace {

constexpr int most_nodes = 4000;   // chosen: a few seconds a step; what is not proven then is said
constexpr double whole = 1e-6;     // chosen: fillings and places differ by 1
constexpr double grain_m3 = 1e-4;  // chosen: a tenth of a litre, far above what GLPK leaves over

std::vector<cut::Entry> run_of(int first, int count) {
  std::vector<cut::Entry> entries;
  entries.reserve(count);
  for (int j = 0; j < count; ++j) entries.push_back({first + j, 1.0});
  return entries;
}

/// Steps of one aim after the other: each keeps what the ones before reached.
class Steps {
 public:
  Steps(const Wish& wish, bool short_of_wanted)
      : model_(model_of(wish, short_of_wanted ? Relief{{Limit::wanted}} : Relief{})) {
    model_.program.most_nodes = most_nodes;
  }

  /// Makes the sum of these columns least, and holds it there with so much to spare; false: there is no answer at all.
  bool least(const std::vector<cut::Entry>& aim, double spare) {
    std::fill(model_.program.cost.begin(), model_.program.cost.end(), 0.0);
    for (const cut::Entry& one : aim) model_.program.cost[one.column] = one.weight;
    std::optional<cut::IntegerAnswer> found;
    try {
      found = solve(model_);
    } catch (const RunError&) {
      if (!answer_) throw;
      found = std::nullopt;  // the answer of the step before still stands
    }
    if (!found && !answer_) return false;
    if (found) {
      answer_ = found;
      cost_ = found->cost;
      bound_ = found->bound;
    } else {
      cost_ = 0.0;
      for (const cut::Entry& one : aim) cost_ += one.weight * answer_->values[one.column];
      bound_ = 0.0;
    }
    hold(model_, aim, cost_ + spare);
    return true;
  }
  [[nodiscard]] bool proven(double within) const { return cost_ - bound_ < within; }
  [[nodiscard]] double bound() const { return bound_; }
  [[nodiscard]] const Columns& at() const { return model_.at; }
  [[nodiscard]] const cut::IntegerAnswer& answer() const { return *answer_; }

 private:
  Model model_;
  std::optional<cut::IntegerAnswer> answer_;
  double cost_ = 0.0, bound_ = 0.0;
};

/// The least that must lie at the end of each part so that later parts, taking `need` and getting `comes`, never lack.
std::vector<double> least_kept(const std::vector<double>& need, const std::vector<double>& comes) {
  const std::size_t n = need.size();
  std::vector<double> kept(n, 0.0);
  for (std::size_t step = 0; step < 3 * n; ++step) {  // what is kept over a year's end has settled by then
    const std::size_t p = (3 * n - 1 - step) % n;
    const std::size_t after = (p + 1) % n;
    kept[p] = std::max(0.0, need[after] - comes[after] + kept[after]);
    if (kept[p] < whole) kept[p] = 0.0;
  }
  return kept;
}

/// Rounded up, so that what is given out can be there.
double whole_grains(double m3) { return std::max(0.0, std::ceil(m3 / grain_m3 - 0.1) * grain_m3); }

}  // namespace

std::optional<cut::IntegerAnswer> solve(const Model& model) {
  try {
    return cut::solve(model.program);
  } catch (const RunError&) {
    throw RunError("yard plan", "the integer programme ended without an answer",
                   "check [supply] for extremes, or want less in one plan");
  }
}

YardPlan plan_of_fills(const Wish& wish, const std::vector<int>& fills, const std::vector<double>& short_m3) {
  const std::size_t n = fills.size();
  const Lags lags = lags_of(wish);
  YardPlan plan;
  plan.fills = fills;
  plan.harvests.assign(n, 0);
  plan.busy.assign(n, 0);
  plan.hours.assign(n, 0.0);
  plan.short_m3 = short_m3;
  for (int f = 0; f < static_cast<int>(n); ++f) {
    const int count = fills[f];
    const auto at = [&](int ahead) { return part_after(wish.year, f, ahead); };
    plan.harvests[at(lags.harvest[f])] += count;
    for (int k = 0; k < lags.free[f]; ++k) plan.busy[at(k)] += count;
    const std::vector<double> hours = hours_of_fill(wish, lags, f);
    for (std::size_t p = 0; p < n; ++p) plan.hours[p] += count * hours[p];
  }
  std::vector<double> need(n), comes(n);
  for (std::size_t p = 0; p < n; ++p) {
    need[p] = wish.wanted_m3[p] - short_m3[p];
    comes[p] = wish.yield_m3 * plan.harvests[p];
  }
  plan.stock_m3 = least_kept(need, comes);
  for (std::size_t p = 0; p < n; ++p) {
    const double spare_m3 = plan.stock_m3[(p + n - 1) % n] + comes[p] - need[p] - plan.stock_m3[p];
    plan.spare_m3.push_back(spare_m3 < whole ? 0.0 : spare_m3);
  }
  for (const Season& season : wish.seasons) {
    for (std::size_t p = 0; p < n; ++p) need[p] = season.per_fill_m3 * fills[p];
    plan.material_m3.push_back(least_kept(need, season.arises_m3));
  }
  plan.places = *std::max_element(plan.busy.begin(), plan.busy.end());
  plan.fills_a_year = std::accumulate(fills.begin(), fills.end(), 0);
  plan.busiest_hours = *std::max_element(plan.hours.begin(), plan.hours.end());
  plan.busiest_bound_hours = plan.busiest_hours;
  return plan;
}

std::optional<YardPlan> best_plan(const Wish& wish, bool short_of_wanted) {
  check(wish);
  Steps steps(wish, short_of_wanted);
  const Columns& at = steps.at();
  if (short_of_wanted && !steps.least(run_of(at.gap, at.parts), whole)) return std::nullopt;
  if (!steps.least({{at.places, 1.0}}, whole)) return std::nullopt;
  const bool places_proven = steps.proven(1.0 - whole);
  (void)steps.least(run_of(at.fills, at.parts), whole);
  const bool fills_proven = steps.proven(1.0 - whole);
  (void)steps.least({{at.busiest, 1.0}}, whole);
  const double bound_hours = steps.bound();
  (void)steps.least(run_of(at.stock, at.parts), whole);
  const bool store_proven = steps.proven(1e-4);
  const auto begin = steps.answer().columns.begin();
  std::vector<double> short_m3(at.parts, 0.0);
  for (int p = 0; at.gap >= 0 && p < at.parts; ++p) {
    const double gap_m3 = steps.answer().values[at.gap + p];
    short_m3[p] = std::min(whole_grains(gap_m3), wish.wanted_m3[p]);
  }
  YardPlan plan = plan_of_fills(wish, {begin + at.fills, begin + at.fills + at.parts}, short_m3);
  plan.places_proven = places_proven;
  plan.fills_proven = fills_proven;
  plan.busiest_bound_hours = std::min(bound_hours, plan.busiest_hours);
  plan.store_proven = store_proven;
  return plan;
}

std::optional<int> fewest_places(const Wish& wish) {
  check(wish);
  Steps steps(wish, false);
  if (!steps.least({{steps.at().places, 1.0}}, whole)) return std::nullopt;
  return steps.answer().columns[steps.at().places];
}

}  // namespace stillheap::supply
