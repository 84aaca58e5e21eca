#include <cmath>

#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/pattern_words.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void draw_figure(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const Scale scale = figure_scale(vessel.design, plan.site.units, flow.width(), flow.room());
  const double plan_height = plan_view_height(vessel.design, scale);
  draw_plan_view(flow.canvas(), flow.take(plan_height), vessel, scale, plan.site.units);
  draw_upright_view(flow.canvas(), flow.take(upright_view_height(vessel.design, scale)), vessel, scale,
                    plan.site.units);
}

void setting_out(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const bool round = vessel.design.footprint == vessel::Footprint::round;
  Table table;
  table.size_pt = 9.5;
  table.row_padding_pt = 2.0;
  table.columns = {{.head = "Channel", .align = Align::right, .strong = true},
                   {.head = "To the right (x)", .align = Align::right},
                   {.head = "To the back (y)", .align = Align::right}};
  if (round) {
    table.columns.push_back({.head = "From the middle", .align = Align::right});
    table.columns.push_back({.head = "Angle from x", .align = Align::right});
  }
  table.columns.push_back({.head = "Form, outside", .align = Align::right});
  for (std::size_t i = 0; i < vessel.design.channels.size(); ++i) {
    const vessel::Channel& channel = vessel.design.channels[i];
    Row row{{std::to_string(i + 1), quantity::format_workshop(channel.centre.x_m, units),
             quantity::format_workshop(channel.centre.y_m, units)}};
    if (round) {
      const Polar place = polar(channel.centre);
      row.cells.push_back(quantity::format_workshop(place.radius_m, units));
      row.cells.push_back(place.radius_m < 0.0005 ? "middle" : degrees(place.angle_rad));
    }
    row.cells.push_back(quantity::format_workshop(channel.diameter_m, units));
    table.rows.push_back(std::move(row));
  }
  table.heading = "Setting out the forms, from the middle of the vessel";
  draw_table(flow, table);
}

/// What the base takes from the channels' mouths, one sentence each.
std::vector<std::string> clash_lines(const VesselPlan& vessel, UnitSystem units) {
  std::vector<std::string> lines;
  for (const vessel::Clash& clash : vessel.warnings) {
    lines.push_back(vessel::describe(clash, [units](double m) { return quantity::format_workshop(m, units); }) + ".");
  }
  return lines;
}

}  // namespace

void vessel_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Vessel drawing", vessel_title(vessel.design));
  draw_figure(flow, plan, vessel);
  if (!vessel.design.channels.empty()) setting_out(flow, plan, vessel);
  if (vessel.suggestion) {
    flow.paragraph("The longest air path is over the wanted " +
                   quantity::format_workshop(plan.site.wanted_air_path_m, plan.site.units) +
                   ". A pattern that meets it: " + vessel.suggestion->words + ".");
  }
  std::vector<std::string> lines = clash_lines(vessel, plan.site.units);
  if (!vessel.loads.note.empty()) lines.push_back(vessel.loads.note);
  for (std::string& text :
       cautions_at(plan, {"building"},
                   "A full vessel is heavy and can tip: set it on firm, level ground and keep people "
                   "from leaning on it. Have loads checked where local codes ask for it.")) {
    lines.push_back(std::move(text));
  }
  flow.caution_box("When building", lines);
}

}  // namespace stillheap::sheet
