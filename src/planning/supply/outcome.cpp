#include "planning/supply/outcome.hpp"

#include <algorithm>

namespace stillheap::supply {

Outcome work_out(const Wish& wish, date::Day start, const std::optional<YieldBand>& band) {
  Outcome outcome;
  outcome.wish = wish;
  outcome.start = start;
  std::optional<YardPlan> plan = best_plan(wish);
  outcome.met = plan.has_value();
  if (!plan) {
    plan = best_plan(wish, true);
    outcome.ways_out = ways_out(wish);
  }
  outcome.plan = *plan;  // a plan that may be short of everything is always there
  outcome.stays = stays_of(wish, outcome.plan, half_month_of(start));
  if (!band) return outcome;
  Wish other = wish;
  other.yield_m3 = band->high_m3;
  outcome.places_low = fewest_places(other);
  other.yield_m3 = band->low_m3;
  outcome.places_high = fewest_places(other);
  return outcome;
}

std::size_t part_shown(const Outcome& outcome, int ahead) noexcept {
  return static_cast<std::size_t>(part_after(outcome.wish.year, half_month_of(outcome.start), ahead));
}

std::vector<int> first_year_harvests(const Outcome& outcome) {
  std::vector<int> harvests(static_cast<std::size_t>(parts(outcome.wish.year)), 0);
  for (const Stay& stay : outcome.stays) {
    const auto at = static_cast<std::size_t>(stay.harvest);
    if (stay.year == 0 && at < harvests.size()) ++harvests[at];
  }
  return harvests;
}

std::vector<int> places_when(const Outcome& outcome, int ahead, int Stay::*when) {
  std::vector<int> places;
  for (const Stay& stay : outcome.stays)
    if (stay.*when == ahead) places.push_back(stay.place);
  return places;
}

std::string place_list(const std::vector<int>& places) {
  std::vector<int> sorted = places;
  std::sort(sorted.begin(), sorted.end());
  std::string text;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    if (i > 0) text += i + 1 == sorted.size() ? " and " : ", ";
    text += std::to_string(sorted[i] + 1);
  }
  return text;
}

}  // namespace stillheap::supply
