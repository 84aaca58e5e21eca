#include "domain/rules/self_heating.hpp"

#include <algorithm>

namespace stillheap::rules {
namespace {

bool heats(double heap_c, double twin_c) { return heap_c > twin_c + near_twin_k && heap_c > frozen_c; }

}  // namespace

HeatDay at_day(std::span<const HeatDay> days, double day) {
  if (days.empty()) return {day, 0.0, 0.0};
  const auto after =
      std::lower_bound(days.begin(), days.end(), day, [](const HeatDay& one, double value) { return one.day < value; });
  if (after == days.begin()) return {day, after->core_c, after->hottest_c};
  if (after == days.end()) return {day, days.back().core_c, days.back().hottest_c};
  const HeatDay& before = *(after - 1);
  const double part = after->day > before.day ? (day - before.day) / (after->day - before.day) : 1.0;
  return {day, before.core_c + part * (after->core_c - before.core_c),
          before.hottest_c + part * (after->hottest_c - before.hottest_c)};
}

SelfHeating self_heating(std::span<const HeatDay> heap, std::span<const HeatDay> twin, bool had_heat) {
  SelfHeating found;
  if (twin.empty()) return found;
  if (had_heat && !heap.empty()) found.began_day = heap.front().day;
  std::optional<Rest> rest;
  const auto close = [&] {
    if (rest && rest->end_day - rest->begin_day >= rest_days) found.rests.push_back(*rest);
    rest.reset();
  };
  for (const HeatDay& now : heap) {
    const HeatDay cold = at_day(twin, now.day);
    const bool warm = heats(now.core_c, cold.core_c) || heats(now.hottest_c, cold.hottest_c);
    if (warm || (rest && now.day - rest->end_day > widest_day_gap)) close();
    if (warm && !found.began_day) found.began_day = now.day;
    if (warm || !found.began_day) continue;
    if (!rest) rest = Rest{now.day, now.day};
    rest->end_day = now.day;
  }
  close();
  return found;
}

}  // namespace stillheap::rules
