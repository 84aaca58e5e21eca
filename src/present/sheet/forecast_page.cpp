#include <cmath>
#include <utility>

#include "present/draw/table.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/measure_table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/section_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void charts(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const Date start = read_date(plan.site.start_date);
  const UnitSystem units = plan.site.units;
  const forecast::Result& result = vessel.forecast;
  std::vector<Chart> stack{temperature_chart(result, start, units), oxygen_chart(result, start, units),
                           moisture_chart(result, start, units)};
  // One calendar above the other: the frames of all three begin and end on the same line.
  align_frames(flow.canvas(), stack);
  const double heights[] = {0.36, 0.22, 0.22, 0.18};  // shares of the page, chosen; the rest are gaps
  const double room = flow.room();
  for (std::size_t i = 0; i < stack.size(); ++i) {
    draw_chart(flow.canvas(), flow.take(heights[i] * room - 9.0), stack[i]);
    flow.space(11.0);
  }
  const Box row = flow.take(heights[3] * room);
  const double half = 0.5 * (row.width - 18.0);
  draw_chart(flow.canvas(), {row.x, row.y, half, row.height}, height_chart(result, start, units));
  draw_chart(flow.canvas(), {row.x + half + 18.0, row.y, half, row.height}, mass_chart(result, start, units));
}

void sections(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const forecast::Result& result = vessel.forecast;
  if (result.snapshots.empty() || result.mesh.levels < 2) {
    flow.paragraph("This forecast keeps no fields, so there are no sections to show.");
    return;
  }
  const double height = section_figure_height(flow.width(), vessel);
  for (const auto& chosen : section_figures(plan, result)) {
    flow.heading("Inside the heap on " + std::to_string(chosen.size()) + (chosen.size() == 1 ? " day" : " days") +
                     ", middle run",
                 height);
    draw_section_figure(flow.canvas(), flow.take(height), vessel, chosen, read_date(plan.site.start_date),
                        plan.site.units);
    flow.space(6.0);
  }
}

std::string place_words(const forecast::Place3& place, UnitSystem units) {
  const auto side = [units](double metres, const char* towards, const char* away) {
    return quantity::format_workshop(std::abs(metres), units) + (metres < 0.0 ? away : towards);
  };
  return side(place.plan.x_m, " right", " left") + " and " + side(place.plan.y_m, " back", " front") +
         " of the middle, " + quantity::format_workshop(place.height_m, units) + " up";
}

void more_figures(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const forecast::Summary& s = vessel.forecast.summary;
  const UnitSystem units = plan.site.units;
  const auto water = [units](const forecast::Banded& kg) {
    return water_volume(kg.middle, units, 3) + " (" +
           span_of(water_volume(kg.low, units, 3), water_volume(kg.high, units, 3)) + ")";
  };
  const auto number = [](const forecast::Banded& b, int decimals) {
    return decimal(b.middle, decimals) + " (" + decimal(b.low, decimals) + " to " + decimal(b.high, decimals) + ")";
  };
  const auto counted = [](const forecast::Banded& b) {
    return counted_days(b.middle) + " (" + span_of(counted_days(b.low), counted_days(b.high)) + ")";
  };
  draw_facts(flow, "Where and how much, one vessel",
             {{"Hottest place", place_words(s.peak_place, units)},
              {"Poorest in oxygen", place_words(s.lowest_oxygen_place, units)},
              {"Most mass at once below 5 % oxygen",
               percent(s.most_mass_below_5_oxygen.middle) + " (" + percent_span(s.most_mass_below_5_oxygen) + ")"},
              {"Days with any place below 5 % oxygen", counted(s.days_any_below_5_oxygen)},
              {"Water over the run", water(s.water_put_on_kg) + " put on, " + water(s.water_made_kg) +
                                         " made by decay, " + water(s.water_evaporated_kg) + " evaporated, " +
                                         water(s.water_drained_kg) + " drained"},
              {"Mean moisture at the end", percent(s.mean_moisture_end_wet.middle) + " (" +
                                               percent_span(s.mean_moisture_end_wet) + ") of wet mass"},
              {"Driest place ever",
               percent(s.driest_moisture_wet.middle) + " (" + percent_span(s.driest_moisture_wet) + ") of wet mass"},
              {"Height and dry matter lost by the end",
               percent(s.height_lost.middle) + " (" + percent_span(s.height_lost) + ") of the height, " +
                   percent(s.solids_lost.middle) + " (" + percent_span(s.solids_lost) + ") of the dry matter"},
              {"Salt to dry matter, end over start",
               number(s.salt_concentration_ratio, 2) + " times; " + percent(s.salt_leached_share.middle) + " (" +
                   percent_span(s.salt_leached_share) + ") of the salt drained away"},
              {"Fastest oxygen uptake, heap mean",
               number(s.peak_uptake_g_kg_h, 1) + " g of oxygen per kg volatile solids and hour (usual: 1 to 10)"}},
             9.5);
}

std::string verdict_words(const std::vector<rules::Verdict>& verdicts, const std::string& rule_id) {
  for (const rules::Verdict& verdict : verdicts) {
    if (verdict.rule_id == rule_id) return (verdict.met ? "met: " : "not met: ") + verdict.reading;
  }
  return "not judged";
}

void hygiene(Flow& flow, const VesselPlan& vessel) {
  const plan::HygieneOutlook& outlook = vessel.hygiene;
  const auto& rules = outlook.coldest.empty() ? outlook.core : outlook.coldest;
  Table table;
  table.heading = "Hygiene rules on the forecast: an outlook, no proof";
  table.size_pt = 9.0;
  table.columns = {{.head = "Rule"}, {.head = "At the coldest place"}, {.head = "At the core"}, {.head = "Source"}};
  for (const rules::Verdict& rule : rules) {
    table.rows.push_back({{rule.rule, verdict_words(outlook.coldest, rule.rule_id),
                           verdict_words(outlook.core, rule.rule_id), rule.source}});
  }
  draw_table(flow, table);
}

void solved(Flow& flow, const VesselPlan& vessel) {
  const forecast::Result& r = vessel.forecast;
  const forecast::Conservation& c = r.summary.conservation;
  draw_facts(flow, "How it was solved",
             {{"Solved", r.solved},
              {"Cells solved, of the full vessel",
               std::to_string(r.cells_solved) + " of " + std::to_string(r.cells_full) + " cells"},
              {"Time steps", std::to_string(r.steps) + " steps"},
              {"Runs behind the band", std::to_string(r.members) + " runs"},
              {"Balance errors, share of throughput: solids, oxygen, water",
               scientific(c.solids) + ", " + scientific(c.oxygen) + ", " + scientific(c.water)},
              {"Balance errors, share of throughput: energy, salt, dry air",
               scientific(c.energy) + ", " + scientific(c.salt) + ", " + scientific(c.dry_air)}},
             9.5);
  flow.paragraph(
      "A balance error is what went in, less what came out, less what is stored, over the throughput. The run "
      "stops with an error above 1e-6.",
      style::note);
}

}  // namespace

void forecast_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Forecast", vessel_title(vessel.design));
  if (vessel.forecast.stopped) flow.paragraph("The forecast stopped early: " + *vessel.forecast.stopped);
  charts(flow, plan, vessel);
  flow.need(flow.room() + 1.0);
  sections(flow, plan, vessel);
  solved(flow, vessel);
  more_figures(flow, plan, vessel);
  draw_measure_table(flow, vessel, plan.site.units);
  hygiene(flow, vessel);
}

}  // namespace stillheap::sheet
