#include <algorithm>

#include "planning/fill/rotation.hpp"
#include "planning/fill/steps.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

std::string clock_words(const Plan& plan, const VesselPlan& vessel) {
  const int baths = plan.site.practice.baths;
  const int people = plan.site.practice.people;
  return clock_time(vessel.fill.clock_s / 3600.0) + " with " + std::to_string(baths) +
         (baths == 1 ? " bath and " : " baths and ") + std::to_string(people) + (people == 1 ? " person" : " people") +
         ", soaking included; " + clock_time(vessel.fill.people_hours) + " of work, all people together";
}

void figures(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const fill::FillPlan& fill = vessel.fill;
  std::vector<std::pair<std::string, std::string>> facts{
      {"Pails, soaked and loosely filled", std::to_string(fill.pails) + " pails of " +
                                               quantity::format(plan.site.practice.pail_m3, Dimension::volume, units)},
      {"Lifts", std::to_string(fill.lifts) + " lifts, each " + std::to_string(plan.site.practice.pails_a_lift) +
                    " pails and about " + quantity::format_workshop(fill.lift_height_m, units) + " high"},
      {"Fill up to", quantity::format_workshop(vessel.design.fill_height_m, units) + " above the base"},
      {"Time on the clock", clock_words(plan, vessel)}};
  if (fill.clock_s > fill::working_day_s) {
    facts.emplace_back("To end in one day",
                       fill.baths_for_a_day > plan.site.practice.baths
                           ? std::to_string(fill.baths_for_a_day) + " baths of this size side by side"
                           : "more people: carrying and spreading alone are longer");
  }
  if (fill.inoculum_kg > 0.0) {
    facts.emplace_back("Finished compost to strew in",
                       quantity::format(fill.inoculum_kg, Dimension::mass, units) + ", shared over the lifts");
  }
  draw_facts(flow, "", facts, 12.0);
  if (fill.pail_mass_kg > 0.0) flow.paragraph(fill::weight_words(fill, units), style::card);
}

std::string batches_of(const fill::LiftTurn& turn) {
  if (turn.first_batch == turn.last_batch) return std::to_string(turn.last_batch);
  return std::to_string(turn.first_batch) + (turn.last_batch > turn.first_batch + 1 ? " to " : " and ") +
         std::to_string(turn.last_batch);
}

Table lift_table(const std::vector<fill::LiftTurn>& turns, bool soaked, UnitSystem units) {
  Table table;
  table.size_pt = 12.0;
  table.row_padding_pt = 4.0;
  table.columns = {{.head = "Done", .fixed_pt = 34.0, .paint = paint_tick_box},
                   {.head = "Lift", .align = Align::right, .strong = true},
                   {.head = "Pails", .align = Align::right},
                   {.head = "In all", .align = Align::right},
                   {.head = "Up to, above base", .align = Align::right, .strong = true}};
  if (soaked) table.columns.push_back({.head = "From batch", .align = Align::right});
  table.columns.push_back({.head = "Begin at", .align = Align::right});
  table.columns.push_back({.head = "Done by", .align = Align::right});
  for (const fill::LiftTurn& turn : turns) {
    Row row{{"", std::to_string(turn.lift), std::to_string(turn.pails), std::to_string(turn.pails_so_far),
             quantity::format_workshop(turn.height_m, units)}};
    if (soaked) row.cells.push_back(batches_of(turn));
    row.cells.push_back(clock_time(turn.start_s / 3600.0));
    row.cells.push_back(clock_time(turn.end_s / 3600.0));
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// A row a lift, to tick while filling.
void lifts(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const auto turns = fill::rotation_of(vessel.design, vessel.fill, plan.site.bath, plan.site.practice);
  if (turns.empty()) return;
  const bool soaked = turns.back().last_batch > 0;
  flow.heading("Lift by lift", 100.0);
  flow.paragraph(soaked
                     ? "While one batch is spread the next soaks: put it in as soon as the bath is empty. Times count "
                       "from the first batch going in. A lift waits until the batches it needs have drained."
                     : "Times count from the first pail.",
                 style::card);
  draw_table(flow, lift_table(turns, soaked, plan.site.units));
  flow.paragraph("Heights are of the loose filling as it is spread, rounded to " +
                     std::string(plan.site.units == UnitSystem::us ? "1/16 in" : "1 mm") +
                     "; the filling settles from the first hour on. Pace: " +
                     decimal(plan.site.practice.pails_per_person_hour, 0) + " pails a person and hour.",
                 style::card);
}

}  // namespace

void fill_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Fill card", vessel_title(vessel.design));
  figures(flow, plan, vessel);
  lifts(flow, plan, vessel);
}

}  // namespace stillheap::sheet
