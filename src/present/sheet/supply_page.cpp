#include <algorithm>
#include <cmath>
#include <numeric>

#include "planning/plan/supply_step.hpp"
#include "present/draw/dates.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/supply_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using supply::Outcome;

std::string volume(double m3, UnitSystem units) { return quantity::format(m3, Dimension::volume, units); }

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

std::string places_words(const Outcome& outcome) {
  std::string words = std::to_string(outcome.plan.places);
  if (outcome.wish.most_places > 0) words += " of " + std::to_string(outcome.wish.most_places) + " there is room for";
  if (!outcome.plan.places_proven) words += " (fewer may do: the search was cut short)";
  const auto end = [](const std::optional<int>& count) { return count ? std::to_string(*count) : "no number of them"; };
  const bool band = outcome.places_low || outcome.places_high;
  if (band && outcome.places_low != outcome.places_high) {
    words += "; " + end(outcome.places_low) + " if a filling yields the most of its band, " + end(outcome.places_high) +
             " if the least";
  }
  return words;
}

std::string work_words(const Outcome& outcome) {
  const supply::YardPlan& plan = outcome.plan;
  std::string words =
      decimal(plan.busiest_hours, 0) + " h in the busiest half-month, " + decimal(sum(plan.hours), 0) + " h a year";
  if (plan.busiest_hours - plan.busiest_bound_hours > 0.5)
    words += "; another order might bring the busiest down, not below " + decimal(plan.busiest_bound_hours, 0) + " h";
  return words;
}

std::string first_words(const Outcome& outcome) {
  int first = 1 << 20;
  for (const supply::Stay& stay : outcome.stays)
    if (stay.year == 0) first = std::min(first, stay.harvest);
  if (first == 1 << 20) return "none";
  const supply::HalfMonth when = supply::half_month_after(outcome.start, first);
  return date_span(when.first, when.last) + "; what is wanted before must come from elsewhere in the first year";
}

std::string turn_words(const Outcome& outcome) {
  const int on = outcome.plan.places == 0 ? 0 : outcome.plan.fills_a_year % outcome.plan.places;
  if (on == 0) return "the same places in the same half-months every year";
  return "places are filled in turn; each year the turn begins " + std::to_string(on) +
         (on == 1 ? " place further on" : " places further on");
}

void facts(Flow& flow, const plan::Plan& plan, const Outcome& outcome) {
  const UnitSystem units = plan.site.units;
  const double harvested = outcome.wish.yield_m3 * outcome.plan.fills_a_year;
  const double spare_m3 = sum(outcome.plan.spare_m3);
  draw_facts(
      flow, "",
      {{"Places", places_words(outcome)},
       {"Fillings a year", std::to_string(outcome.plan.fills_a_year) + " of vessel \"" + outcome.vessel + "\", each " +
                               volume(outcome.wish.yield_m3, units) + " of compost after " +
                               counted_days(outcome.wish.harvest_days)},
       {"Compost a year", volume(sum(outcome.wish.wanted_m3), units) + " wanted, " + volume(harvested, units) +
                              " harvested, " + (spare_m3 > 0.0 ? volume(spare_m3, units) : "nothing") + " to spare"},
       {"Work", work_words(outcome)},
       {"First harvest", first_words(outcome)},
       {"Next years", turn_words(outcome)}},
      9.5);
}

void tell_short(Flow& flow, const plan::Plan& plan, const Outcome& outcome) {
  if (outcome.met) return;
  std::vector<std::string> lines = supply::short_lines(outcome, plan.site.units);
  for (const supply::Way& way : outcome.ways_out)
    lines.push_back("It could be with " + supply::way_text(outcome, way, plan.site.units) + ".");
  flow.caution_box("Not all that is wanted can be ready; shown is what comes closest", lines);
}

/// The half-month, with the year where it is not that of the row above.
std::string when_text(const Outcome& outcome, int ahead) {
  const supply::HalfMonth when = supply::half_month_after(outcome.start, ahead);
  std::string text = date_span(when.first, when.last);
  if (ahead == 0 || supply::part_shown(outcome, ahead) == 0) return text;
  return text.substr(0, text.rfind(' '));
}

void by_half_month(Flow& flow, const plan::Plan& plan, const Outcome& outcome) {
  const UnitSystem units = plan.site.units;
  const auto amount = [&](double m3) { return m3 < 0.0005 ? std::string() : volume(m3, units); };
  Table table;
  table.heading = "Half-month by half-month";
  table.size_pt = 9.0;
  table.row_padding_pt = 1.8;
  table.columns = {{.head = "When", .fixed_pt = 92.0, .strong = true},
                   {.head = "Fill places"},
                   {.head = "Harvest places"},
                   {.head = "Hours", .align = Align::right},
                   {.head = "Wanted", .align = Align::right},
                   {.head = "In store at end", .align = Align::right}};
  for (const supply::Season& season : outcome.wish.seasons)
    table.columns.push_back({.head = season.name + " to fill in", .align = Align::right});
  for (int ahead = 0; ahead < supply::parts(outcome.wish.year); ++ahead) {
    const std::size_t p = supply::part_shown(outcome, ahead);
    std::vector<std::string> cells{when_text(outcome, ahead),
                                   supply::place_list(supply::places_when(outcome, ahead, &supply::Stay::fill)),
                                   supply::place_list(supply::places_when(outcome, ahead, &supply::Stay::harvest)),
                                   decimal(outcome.plan.hours[p], 0),
                                   amount(outcome.wish.wanted_m3[p]),
                                   amount(outcome.plan.stock_m3[p])};
    for (const supply::Season& season : outcome.wish.seasons)
      cells.push_back(amount(season.per_fill_m3 * outcome.plan.fills[p]));
    table.rows.push_back({cells});
  }
  draw_table(flow, table);
}

/// What the plan's numbers rest on, where they are acted on: not every pack has the sheet of all assumptions.
void rests_on(Flow& flow, const plan::Plan& plan) {
  constexpr std::string_view prefix = "plan: yard plan, ";
  std::string words;
  for (const Assumption& one : plan::supply_choices(plan)) {
    words += (words.empty() ? "What it rests on: " : "; ") + one.topic.substr(prefix.size()) + ": " + one.value + " (" +
             one.source + ')';
  }
  if (words.empty()) return;
  words += '.';
  flow.paragraph(words, style::note);
}

}  // namespace

void supply_page(Flow& flow, const plan::Plan& plan) {
  if (!plan.supply) return;
  const Outcome& outcome = *plan.supply;
  flow.start_sheet("Yard plan",
                   "a steady year, planned to the half-month; harvest when the heap is ready, not by date");
  tell_short(flow, plan, outcome);
  facts(flow, plan, outcome);
  const auto vessel = std::find_if(plan.vessels.begin(), plan.vessels.end(),
                                   [&](const plan::VesselPlan& one) { return one.design.name == outcome.vessel; });
  draw_places(flow, outcome, vessel == plan.vessels.end() ? Phases{} : phases_of(*vessel));
  flow.space(6.0);
  draw_work(flow, outcome);
  flow.space(6.0);
  rests_on(flow, plan);
  flow.space(6.0);
  draw_supply(flow, outcome, plan.site.units);
  flow.space(8.0);
  by_half_month(flow, plan, outcome);
}

}  // namespace stillheap::sheet
