#include "planning/supply/wish.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/error.hpp"

namespace stillheap::supply {
namespace {

constexpr double longest_days = 3.0 * 365.0;  // chosen: no static heap takes longer

void refuse(const std::string& what, const std::string& mend) { throw InputError("yard plan", what, mend); }

void check_list(const std::vector<double>& list, std::size_t count, const std::string& what) {
  if (list.size() != count) refuse(what + " has not one value for each part of the year", "give one for each");
  const bool good = std::all_of(list.begin(), list.end(), [](double v) { return std::isfinite(v) && v >= 0.0; });
  if (!good) refuse(what + " is below nothing or no number", "give amounts from 0 on");
}

void check_range(double value, double low, double high, const std::string& what) {
  if (value >= low && value <= high) return;
  refuse(what + " is " + std::to_string(value), "give " + std::to_string(low) + " to " + std::to_string(high));
}

}  // namespace

Lags lags_of(const Wish& wish) {
  Lags lags;
  for (int part = 0; part < parts(wish.year); ++part) {
    lags.harvest.push_back(parts_until(wish.year, part, wish.harvest_days));
    lags.free.push_back(parts_until(wish.year, part, wish.harvest_days + wish.rest_days));
    lags.store.push_back(std::min(parts(wish.year), parts_within(wish.year, part, wish.store_days)));
  }
  return lags;
}

void check(const Wish& wish) {
  const auto count = wish.year.first_day.size();
  if (count == 0) refuse("the year has no parts", "give one at least");
  check_list(wish.wanted_m3, count, "the compost wanted");
  if (wish.may_fill.size() != count) refuse("the times of filling do not fit the year", "give one for each part");
  if (!wish.most_hours.empty()) check_list(wish.most_hours, count, "the hours that can be worked");
  if (!(wish.yield_m3 > 0.0) || !std::isfinite(wish.yield_m3)) refuse("a filling yields nothing", "give its yield");
  check_range(wish.harvest_days, 1.0, longest_days, "the time from filling to harvest in days");
  check_range(wish.rest_days, 0.0, longest_days, "the rest of a place in days");
  check_range(wish.store_days, 0.0, longest_days, "the time in store in days");
  if (!(wish.store_m3 >= 0.0)) refuse("the room for compost is below nothing", "give amounts from 0 on");
  for (const Season& season : wish.seasons) {
    check_list(season.arises_m3, count, season.name);
    if (!(season.per_fill_m3 >= 0.0)) refuse(season.name + " is below nothing in a filling", "give amounts from 0 on");
    check_range(season.keeps_days, 0.0, longest_days, "how long " + season.name + " keeps in days");
  }
}

}  // namespace stillheap::supply
