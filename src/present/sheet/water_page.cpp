#include <algorithm>
#include <chrono>

#include "planning/plan/water_step.hpp"
#include "planning/water/words.hpp"
#include "present/draw/dates.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void paint_bar(Canvas& canvas, const Box& cell, double share) {
  const Box bar{cell.x, cell.y + 5.0, std::max(0.0, share) * cell.width, cell.height - 10.0};
  if (bar.width > 0.3) fill(canvas, bar, accent);
}

/// "6 to 15 Sep 2027".
std::string span_words(const water::Row& row) {
  const std::string last = short_date(row.last);
  if (row.first == row.last) return last;
  const std::chrono::year_month_day first{row.first};
  return std::to_string(static_cast<unsigned>(first.day())) + " to " + last;
}

void wall_table(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::Programme& programme = vessel.programme;
  const auto a_day = [](const water::Row& row) { return row.every_days > 0 ? row.run_kg / row.every_days : 0.0; };
  double most = 0.0;
  for (const water::Row& row : programme.rows) most = std::max(most, a_day(row));
  const auto bar = [&programme, most, a_day](Canvas& canvas, const Box& cell, std::size_t row) {
    if (most > 0.0 && row < programme.rows.size()) paint_bar(canvas, cell, a_day(programme.rows[row]) / most);
  };
  Table table;
  table.size_pt = 10.0;
  table.row_padding_pt = 2.5;
  table.columns = {{.head = "Half-month", .strong = true},
                   {.head = programme.way.by_hand ? "Carry" : "Set timer to", .align = Align::right, .strong = true},
                   {.head = "How often", .strong = true},
                   {.head = "", .fixed_pt = 36.0, .paint = bar},
                   {.head = "A run lets out", .align = Align::right},
                   {.head = "of it gets in", .align = Align::right},
                   {.head = "Rain kept", .align = Align::right},
                   {.head = "Drains a day", .align = Align::right},
                   {.head = "Salt out a day", .align = Align::right}};
  const double salt_kg_kg = plan::drained_salt_g_kg(vessel) / 1000.0;
  for (std::size_t i = 0; i < programme.rows.size(); ++i) {
    const water::Row& row = programme.rows[i];
    const bool runs = row.setting == water::Setting::runs;
    const forecast::Banded drained = plan::drained_in(vessel, i);
    table.rows.push_back(
        {{span_words(row), water::run_text(programme, row), water::rhythm_text(row), "",
          runs ? water_volume(row.run_kg, units) : "", runs ? water_volume(row.run_reaching_kg, units) : "",
          water_volume(row.rain_credited_kg, units),
          span_of(water_volume(drained.low, units), water_volume(drained.high, units)),
          quantity::format(drained.middle * salt_kg_kg, Dimension::mass, units, 2)}});
  }
  table.rows.push_back({{"Together", "", "", "", water_volume(water::let_out_kg(programme), units, 4),
                         water_volume(water::reaching_kg(programme), units, 4), "", "", ""},
                        RowKind::total});
  table.heading = "Water programme, one vessel: pin this to the wall";
  draw_table(flow, table);
}

std::string programme_note(const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::Way& way = vessel.programme.way;
  const std::string step =
      way.by_hand ? "whole cans of " + water_volume(way.step_kg, units) + "; with a hose, time one can. "
                  : "whole steps of the timer, " + quantity::format(way.step_s, Dimension::duration, units) + ". ";
  return "This is what the forecast was run with: what the heap loses in typical weather, less rain that it keeps, " +
         percent(way.leaching_share) + " more to drain and " + percent(way.efficiency) +
         " of what is let out getting in, in " + step +
         "Leave a run out after heavy rain, and while a handful drips or the top is frozen. Squeeze a handful now and "
         "then, gloved, from where the probe reads below " +
         quantity::format(40.0, Dimension::temperature, units) +
         ": a few drops are right. Drained: the likely range. "
         "Salts: " +
         quantity::format(plan.site.water.supply.conductivity_s_m, Dimension::conductivity, units, 2) +
         " in the water, " + quantity::format(vessel.drain_conductivity_s_m, Dimension::conductivity, units, 2) +
         " in what drains.";
}

std::vector<std::string> water_cautions(const Plan& plan) {
  std::vector<std::string> lines =
      cautions_at(plan, {"watering"},
                  "Keep what drains away from wells, ditches and streams, and let it soak into planted ground.");
  const bool said = std::any_of(lines.begin(), lines.end(), [](const std::string& line) {
    return line.find("back-flow") != std::string::npos || line.find("backflow") != std::string::npos;
  });
  if (plan.site.water.drinking_water && !said) {
    lines.insert(lines.begin(),
                 plan.site.water.by_hand
                     ? "A hose on a drinking-water tap: keep its end out of can and tub, and fit a back-flow preventer "
                       "of the kind your local code asks for."
                     : "The line hangs on a drinking-water supply: fit a back-flow preventer of the kind your local "
                       "code asks for, by a licensed plumber where it says so.");
  }
  return lines;
}

}  // namespace

void water_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Water card", vessel_title(vessel.design));
  wall_table(flow, plan, vessel);
  flow.paragraph(plan::programme_limits(vessel, plan.site.units), style::note);
  flow.paragraph(programme_note(plan, vessel), style::note);
  flow.space(4.0);
  flow.caution_box("While watering", water_cautions(plan));
}

}  // namespace stillheap::sheet
