#include <algorithm>
#include <cmath>

#include "sheet/pages.hpp"
#include "sheet/table.hpp"
#include "sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void line_data(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::Line& pipe = plan.site.water.line;
  const water::LineFlow& flows = vessel.line_flow;
  const auto length = [&](double metres) { return quantity::format(metres, Dimension::length, units); };
  std::vector<std::pair<std::string, std::string>> facts{
      {"Line", length(pipe.length_m) + " long, " + length(pipe.inside_diameter_m) + " inside, " +
                   (pipe.ring ? "closed into a ring" : "fed at one end")},
      {"Holes", std::to_string(flows.holes) + " holes of " + length(pipe.hole_diameter_m) + ", one every " +
                    length(pipe.spacing_m)}};
  if (pipe.sprays > 0) {
    facts.emplace_back("Small sprays over the top",
                       std::to_string(pipe.sprays) + (pipe.sprays == 1 ? " spray of " : " sprays, each ") +
                           quantity::format(pipe.spray_flow_m3_s, Dimension::flow, units) + " at " +
                           quantity::format(pipe.spray_pressure_pa, Dimension::pressure, units));
  }
  facts.emplace_back("Pressure at the inlet", quantity::format(flows.inlet_pressure_pa, Dimension::pressure, units) +
                                                  (flows.supply_limits ? "; the supply gives no more" : ""));
  facts.emplace_back("Flow in all", quantity::format(flows.total_flow_m3_s, Dimension::flow, units));
  facts.emplace_back("Evenness of the holes", percent(flows.christiansen_uniformity) +
                                                  " (Christiansen); driest quarter " +
                                                  percent(flows.low_quarter_uniformity) + " of the mean");
  facts.emplace_back("Salts in the water",
                     quantity::format(plan.site.water.supply.conductivity_s_m, Dimension::conductivity, units, 2));
  facts.emplace_back("Salts in what drains",
                     quantity::format(vessel.drain_conductivity_s_m, Dimension::conductivity, units, 2));
  draw_facts(flow, "The line", facts);
}

void paint_bar(Canvas& canvas, const Box& cell, double share) {
  const Box bar{cell.x, cell.y + 5.0, std::max(0.0, share) * cell.width, cell.height - 10.0};
  if (bar.width > 0.3) fill(canvas, bar, accent);
}

void wall_table(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const water::MonthlyWater& water = vessel.water;
  double most = 0.0;
  for (std::size_t m = 0; m < 12; ++m) most = std::max(most, vessel.water_known[m] ? water.minutes_day[m] : 0.0);
  const auto bar = [&vessel, most](Canvas& canvas, const Box& cell, std::size_t row) {
    if (most > 0.0 && row < 12 && vessel.water_known[row]) {
      paint_bar(canvas, cell, vessel.water.minutes_day[row] / most);
    }
  };
  Table table;
  table.size_pt = 11.0;
  table.row_padding_pt = 2.5;
  table.columns = {{.head = "Month", .strong = true},
                   {.head = "Run each day", .align = Align::right, .strong = true},
                   {.head = "", .fixed_pt = 70.0, .paint = bar},
                   {.head = "By the band", .align = Align::right},
                   {.head = "Water a day", .align = Align::right},
                   {.head = "Drains a day", .align = Align::right},
                   {.head = "Salt out a day", .align = Align::right}};
  for (std::size_t m = 0; m < 12; ++m) {
    Row row{{month_long(static_cast<unsigned>(m + 1))}};
    if (vessel.water_known[m]) {
      row.cells.insert(row.cells.end(),
                       {run_time(water.minutes_day[m]), "",
                        span_of(run_time(vessel.water_low.minutes_day[m]), run_time(vessel.water_high.minutes_day[m])),
                        water_volume(water.need_kg_day[m], units), water_volume(water.drained_kg_day[m], units),
                        quantity::format(water.salt_out_g_day[m] / 1000.0, Dimension::mass, units, 2)});
    } else {
      row.cells.insert(row.cells.end(), {"not forecast", "", "", "", "", ""});
    }
    table.rows.push_back(std::move(row));
  }
  table.heading = "Minutes by month, one vessel: pin this to the wall";
  draw_table(flow, table);
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
                 "The line hangs on a drinking-water supply: fit a back-flow preventer of the kind your local "
                 "code asks for, by a licensed plumber where it says so.");
  }
  return lines;
}

}  // namespace

void water_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Water card", vessel_title(vessel.design));
  wall_table(flow, plan, vessel);
  flow.paragraph(
      "Squeeze a handful from the depth of an arm now and then: a few drops are right. Skip a day after heavy rain "
      "on an open top. Minutes come from the forecast and typical weather.",
      style::note);
  flow.space(4.0);
  line_data(flow, plan, vessel);
  flow.caution_box("While watering", water_cautions(plan));
}

}  // namespace stillheap::sheet
