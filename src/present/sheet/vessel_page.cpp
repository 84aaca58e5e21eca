#include <algorithm>
#include <cmath>

#include "planning/plan/suggestion_text.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/pattern_words.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

void draw_figure(Flow& flow, const Plan& plan, const VesselPlan& vessel, double room_pt) {
  flow.holds_drawing();
  const Tag figure(flow.canvas(), "Figure");
  const Scale scale = figure_scale(vessel.design, plan.site.units, flow.width(), room_pt);
  const double plan_height = plan_view_height(vessel.design, scale);
  draw_plan_view(flow.canvas(), flow.take(plan_height), vessel, scale, plan.site.units);
  draw_upright_view(flow.canvas(), flow.take(upright_view_height(vessel.design, scale)), vessel, scale,
                    plan.site.units);
}

std::vector<std::string> place_cells(const VesselPlan& vessel, std::size_t i, UnitSystem units) {
  const vessel::Channel& channel = vessel.design.channels[i];
  std::vector<std::string> cells{std::to_string(i + 1), quantity::format_workshop(channel.centre.x_m, units),
                                 quantity::format_workshop(channel.centre.y_m, units)};
  if (vessel.design.footprint != vessel::Footprint::round) return cells;
  const Polar place = polar(channel.centre);
  cells.push_back(quantity::format_workshop(place.radius_m, units));
  cells.push_back(place.radius_m < 0.0005 ? "middle" : degrees(place.angle_rad));
  return cells;
}

/// Two channels a row, so that the table stays under its drawing; forms that differ get a column of their own.
void setting_out(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const std::vector<vessel::Channel>& channels = vessel.design.channels;
  const bool round = vessel.design.footprint == vessel::Footprint::round;
  const bool alike = std::all_of(channels.begin(), channels.end(), [&](const vessel::Channel& channel) {
    return channel.diameter_m == channels.front().diameter_m;
  });
  const std::size_t halves = channels.size() > 3 && alike ? 2 : 1;
  const std::size_t rows = (channels.size() + halves - 1) / halves;
  Table table;
  table.size_pt = 10.0;
  table.row_padding_pt = 2.0;
  for (std::size_t half = 0; half < halves; ++half) {
    table.columns.push_back({.head = "Channel", .align = Align::right, .strong = true});
    table.columns.push_back({.head = "To the right", .align = Align::right});
    table.columns.push_back({.head = "To the back", .align = Align::right});
    if (!round) continue;
    table.columns.push_back({.head = "From the middle", .align = Align::right});
    table.columns.push_back({.head = "Angle", .align = Align::right});
  }
  if (!alike) table.columns.push_back({.head = "Form, outside", .align = Align::right});
  for (std::size_t row = 0; row < rows; ++row) {
    Row cells;
    for (std::size_t i = row; i < channels.size(); i += rows) {
      for (std::string& cell : place_cells(vessel, i, units)) cells.cells.push_back(std::move(cell));
    }
    if (!alike) cells.cells.push_back(quantity::format_workshop(channels[row].diameter_m, units));
    table.rows.push_back(std::move(cells));
  }
  table.heading = "Setting out the forms, from the middle of the vessel";
  if (alike) table.heading += ", each " + quantity::format_workshop(channels.front().diameter_m, units) + " outside";
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

/// What stands under the drawing.
void words_under(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  if (!vessel.design.channels.empty()) setting_out(flow, plan, vessel);
  if (vessel.suggestion) {
    flow.paragraph("The longest air path is over the wanted " +
                   quantity::format_workshop(plan.site.wanted_air_path_m, plan.site.units) +
                   ". A pattern that meets it: " + plan::suggestion_text(*vessel.suggestion, plan.site.units) + ".");
  }
}

}  // namespace

void vessel_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Vessel drawing", vessel_title(vessel.design));
  const auto under = [&](Flow& below) { words_under(below, plan, vessel); };
  constexpr double least_share = 0.6;  // of the page for the drawing, chosen: a longer table goes on over the page
  draw_figure(flow, plan, vessel, room_for_drawing(flow, under, least_share));
  under(flow);
}

void building_cautions(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
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
