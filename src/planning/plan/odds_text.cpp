#include "planning/plan/odds_text.hpp"

#include <algorithm>
#include <cmath>

#include "model/forecast/odds.hpp"

namespace stillheap::plan {
namespace {

constexpr double hardly = 0.05;  // below one in twenty nobody counts tenths

std::string at(double celsius, UnitSystem units) { return quantity::format(celsius, Dimension::temperature, units); }

std::string whole_day(double day) { return std::to_string(std::lround(day)); }

}  // namespace

std::string odds_figure(const forecast::Odds& odds) {
  if (odds.share < hardly) return "fewer than 1 in 20";
  if (odds.share > 1.0 - hardly) return "more than 19 in 20";
  return std::to_string(std::clamp(forecast::in_ten(odds), 1, 9)) + " in 10";
}

std::string odds_event(const forecast::Odds& odds, UnitSystem units) {
  using forecast::Event;
  switch (odds.event) {
    case Event::reaches_55_c:
      return "the hottest place reaches " + at(55.0, units);
    case Event::quarter_above_55_c_for_3_days:
      return "a quarter of the heap is above " + at(55.0, units) + " for three days in a row";
    case Event::passes_70_c:
      return "the hottest place passes " + at(70.0, units);
    case Event::never_below_5_percent_oxygen:
      return "no place ever falls below 5 % oxygen";
    case Event::heating_ends_between_days:
      return "self-heating ends, so that worms can follow, between day " + whole_day(odds.from_day) + " and day " +
             whole_day(odds.to_day);
  }
  return {};
}

std::string odds_text(const forecast::Odds& odds, UnitSystem units) {
  return odds_figure(odds) + " that " + odds_event(odds, units);
}

}  // namespace stillheap::plan
