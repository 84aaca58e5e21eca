#include <algorithm>

#include "domain/rules/caution_words.hpp"
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

/// Half-months that follow each other and ask for the same, nothing: one line on the wall.
struct Stretch {
  std::size_t first = 0, last = 0;
  double rain_kg = 0.0;
};

std::vector<Stretch> stretches_of(const water::Programme& programme) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < programme.rows.size(); ++i) {
    const water::Row& row = programme.rows[i];
    const bool idle = row.setting != water::Setting::runs;
    if (idle && !stretches.empty() && programme.rows[stretches.back().last].setting == row.setting) {
      stretches.back().last = i;
      stretches.back().rain_kg += row.rain_credited_kg;
    } else {
      stretches.push_back({i, i, row.rain_credited_kg});
    }
  }
  return stretches;
}

void wall_table(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::Programme& programme = vessel.programme;
  const std::vector<Stretch> stretches = stretches_of(programme);
  const auto a_day = [](const water::Row& row) { return row.every_days > 0 ? row.run_kg / row.every_days : 0.0; };
  double most = 0.0;
  for (const water::Row& row : programme.rows) most = std::max(most, a_day(row));
  const auto bar = [&](Canvas& canvas, const Box& cell, std::size_t row) {
    if (most > 0.0 && row < stretches.size())
      paint_bar(canvas, cell, a_day(programme.rows[stretches[row].first]) / most);
  };
  Table table;
  table.size_pt = 12.0;  // of a card on the wall
  table.row_padding_pt = 3.5;
  table.columns = {{.head = "When", .strong = true},
                   {.head = programme.way.by_hand ? "Carry" : "Timer", .align = Align::right, .strong = true},
                   {.head = "How often", .strong = true},
                   {.head = "", .fixed_pt = 48.0, .paint = bar},
                   {.head = "Lets out", .align = Align::right},
                   {.head = "gets in", .align = Align::right},
                   {.head = "Rain", .align = Align::right}};
  for (const Stretch& stretch : stretches) {
    const water::Row& row = programme.rows[stretch.first];
    const bool runs = row.setting == water::Setting::runs;
    table.rows.push_back(
        {{date_span(row.first, programme.rows[stretch.last].last), water::run_text(programme, row),
          water::rhythm_text(row), "", runs ? water::run_water_text(row, units) : "",
          runs ? water_volume(row.run_reaching_kg, units) : "", water_volume(stretch.rain_kg, units)}});
  }
  table.rows.push_back({{"Together", "", "", "", water_volume(water::let_out_kg(programme), units, 4),
                         water_volume(water::reaching_kg(programme), units, 4), ""},
                        RowKind::total});
  table.heading = "Water programme, one vessel: pin this to the wall";
  draw_table(flow, table);
}

/// Whole likely range of what drains on one day of the year's wettest half-month.
std::string drained_words(const VesselPlan& vessel, UnitSystem units) {
  if (vessel.drained_kg_day.empty()) return {};
  double most_kg = 0.0;
  for (const forecast::Banded& drained : vessel.drained_kg_day) most_kg = std::max(most_kg, drained.high);
  return "At most " + water_volume(most_kg, units) +
         " a day drains in the wettest half-month (likely range; all in water.csv). ";
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
         quantity::format(rules::words::touch_c, Dimension::temperature, units) + ": a few drops are right. " +
         drained_words(vessel, units) +
         "Salts: " + quantity::format(plan.site.water.supply.conductivity_s_m, Dimension::conductivity, units, 2) +
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
  flow.paragraph(plan::programme_limits(vessel));
  flow.paragraph(programme_note(plan, vessel));
  flow.space(4.0);
  flow.caution_box("While watering", water_cautions(plan), 11.0);
}

}  // namespace stillheap::sheet
