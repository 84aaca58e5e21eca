#include <cctype>
#include <map>

#include "core/base/csv.hpp"
#include "core/ical/ical.hpp"
#include "planning/supply/outcome.hpp"

namespace stillheap::supply {
namespace {

using csv::cell;

std::string spaced(const std::vector<int>& places) {
  std::string text;
  for (const int place : places) text += (text.empty() ? "" : " ") + std::to_string(place + 1);
  return text;
}

std::vector<std::string> head(const Outcome& outcome) {
  std::vector<std::string> cells{"first_day",
                                 "last_day",
                                 "fillings",
                                 "places_filled",
                                 "harvests",
                                 "places_emptied",
                                 "places_taken",
                                 "harvested_m3",
                                 "wanted_m3",
                                 "given_out_m3",
                                 "short_m3",
                                 "spare_m3",
                                 "in_store_at_end_m3",
                                 "harvested_in_first_year_m3",
                                 "hours",
                                 "hours_at_most"};
  for (const Season& season : outcome.wish.seasons) {
    cells.push_back(season.id + "_arises_m3");
    cells.push_back(season.id + "_filled_in_m3");
    cells.push_back(season.id + "_kept_at_end_m3");
  }
  return cells;
}

std::vector<std::string> cells_of(const Outcome& outcome, int ahead, int first_year_harvest) {
  const Wish& wish = outcome.wish;
  const YardPlan& plan = outcome.plan;
  const std::size_t p = part_shown(outcome, ahead);
  const HalfMonth when = half_month_after(outcome.start, ahead);
  std::vector<std::string> cells{cell(date::to_iso(when.first)),
                                 cell(date::to_iso(when.last)),
                                 cell(plan.fills[p]),
                                 cell(spaced(places_when(outcome, ahead, &Stay::fill))),
                                 cell(plan.harvests[p]),
                                 cell(spaced(places_when(outcome, ahead, &Stay::harvest))),
                                 cell(plan.busy[p]),
                                 cell(plan.harvests[p] * wish.yield_m3),
                                 cell(wish.wanted_m3[p]),
                                 cell(wish.wanted_m3[p] - plan.short_m3[p]),
                                 cell(plan.short_m3[p]),
                                 cell(plan.spare_m3[p]),
                                 cell(plan.stock_m3[p]),
                                 cell(first_year_harvest * wish.yield_m3),
                                 cell(plan.hours[p]),
                                 wish.most_hours.empty() ? "" : cell(wish.most_hours[p])};
  for (std::size_t s = 0; s < wish.seasons.size(); ++s) {
    cells.push_back(cell(wish.seasons[s].arises_m3[p]));
    cells.push_back(cell(wish.seasons[s].per_fill_m3 * plan.fills[p]));
    cells.push_back(cell(plan.material_m3[s][p]));
  }
  return cells;
}

/// Letters and digits of a name, the rest as hyphens: fit for a UID.
std::string plain_name(const std::string& name) {
  std::string plain;
  for (const char letter : name) {
    const bool kept = std::isalnum(static_cast<unsigned char>(letter)) != 0;
    if (kept) plain += static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    if (!kept && !plain.empty() && plain.back() != '-') plain += '-';
  }
  return plain.empty() ? "yard" : plain;
}

/// What is done in one half-month, all places of it in one entry.
ical::CalendarDay entry(const Outcome& outcome, const std::string& work, int ahead, const std::vector<int>& places,
                        const std::string& more) {
  const HalfMonth when = half_month_after(outcome.start, ahead);
  const date::Day first = std::max(when.first, outcome.start);
  ical::CalendarDay day;
  day.uid = "yard-plan-" + work + '-' + date::to_iso(when.first) + "@" + plain_name(outcome.site);
  day.first = date::to_iso(first);
  day.last = date::to_iso(when.last);
  const std::string verb = work == "fill" ? "Fill" : "Harvest";
  day.title = verb + (places.size() == 1 ? " place " : " places ") + place_list(places);
  day.description = outcome.vessel + ". " + more + " Planned to the half-month; the readings decide.";
  return day;
}

}  // namespace

std::string supply_csv(const Outcome& outcome) {
  std::string text = csv::row(head(outcome));
  const std::vector<int> first = first_year_harvests(outcome);
  for (int ahead = 0; ahead < parts(outcome.wish.year); ++ahead)
    text += csv::row(cells_of(outcome, ahead, first[static_cast<std::size_t>(ahead)]));
  return text;
}

std::string supply_ics(const Outcome& outcome, UnitSystem units) {
  std::map<int, std::vector<int>> filled, harvested;
  for (const Stay& stay : outcome.stays) {
    if (stay.year != 0) continue;
    filled[stay.fill].push_back(stay.place);
    harvested[stay.harvest].push_back(stay.place);
  }
  const auto volume = [&](double m3) { return quantity::format(m3, Dimension::volume, units); };
  std::vector<ical::CalendarDay> days;
  for (const auto& [ahead, places] : filled) {
    std::string take;
    for (const Season& season : outcome.wish.seasons) {
      take += (take.empty() ? "Take " : ", ") + volume(season.per_fill_m3 * static_cast<double>(places.size())) +
              " of " + season.name;
    }
    days.push_back(entry(outcome, "fill", ahead, places, take.empty() ? "" : take + '.'));
  }
  for (const auto& [ahead, places] : harvested) {
    const double m3 = outcome.wish.yield_m3 * static_cast<double>(places.size());
    days.push_back(entry(outcome, "harvest", ahead, places, "About " + volume(m3) + " of compost."));
  }
  return ical::calendar_text(outcome.site + ": yard plan", days, outcome.start);
}

}  // namespace stillheap::supply
