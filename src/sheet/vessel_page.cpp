#include <cmath>

#include "sheet/pages.hpp"
#include "sheet/pattern_words.hpp"
#include "sheet/table.hpp"
#include "sheet/vessel_figure.hpp"
#include "sheet/words.hpp"

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

/// All channels over slats in one sentence, other clashes one each.
std::vector<std::string> clash_lines(const VesselPlan& vessel, UnitSystem units) {
  std::vector<std::string> lines;
  std::string over_slats;
  for (const vessel::Clash& clash : vessel.warnings) {
    const std::string channel = "channel " + std::to_string(clash.channel + 1);
    if (clash.kind == vessel::ClashKind::channel_and_slat) {
      over_slats += (over_slats.empty() ? "" : "; ") + channel + " over slat " + std::to_string(clash.other + 1) +
                    " loses " + percent(clash.covered_share);
    } else {
      lines.push_back(channel + " overlaps by " + quantity::format_workshop(clash.overlap_m, units));
    }
  }
  if (!over_slats.empty()) lines.push_back("Slats cover mouths of channels; shift or notch them: " + over_slats + ".");
  return lines;
}

std::string bearing_words(const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const std::string loaded = quantity::format(vessel.loads.ground_pressure_pa, Dimension::pressure, units);
  if (plan.site.soil_bearing_pa <= 0.0) return loaded + "; what the ground bears was not given";
  return loaded + "; the ground bears " + quantity::format(plan.site.soil_bearing_pa, Dimension::pressure, units);
}

void loads(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const vessel::Loads& l = vessel.loads;
  std::vector<std::pair<std::string, std::string>> facts{
      {"Mass of the filling, soaked", quantity::format(l.mass_wet_kg, Dimension::mass, units)}};
  // In US units the force and the mass are the same number of pounds, so only metric readers get both.
  if (units == UnitSystem::metric) facts.emplace_back("Weight of the filling", force(l.weight_n, units));
  facts.emplace_back("Pressure on the base, without help from the wall",
                     quantity::format(l.base_pressure_pa, Dimension::pressure, units));
  facts.emplace_back("Pressure on the ground, spread evenly", bearing_words(plan, vessel));
  facts.emplace_back("Side pressure at the bottom, with wall friction (Janssen)",
                     quantity::format(l.side_pressure_pa, Dimension::pressure, units));
  facts.emplace_back("Side pressure at the bottom, no friction counted",
                     quantity::format(l.side_pressure_no_friction_pa, Dimension::pressure, units));
  if (l.hoop_tension_n_m > 0.0) {
    facts.emplace_back("Pull around the cage at the bottom", line_load(l.hoop_tension_n_m, units) + " of height");
  }
  if (l.side_force_n_m > 0.0) {
    facts.emplace_back("Push on a straight side, whole height", line_load(l.side_force_n_m, units) + " of wall");
  }
  if (l.wire_safety > 0.0) {
    facts.emplace_back("Pull in one wire", force(l.wire_force_n, units));
    facts.emplace_back("Stress in one wire", quantity::format(l.wire_stress_pa, Dimension::pressure, units));
    facts.emplace_back("Allowed stress over stress", decimal(l.wire_safety, 1) + " times");
  } else {
    facts.emplace_back("Stress in the mesh",
                       vessel.design.mesh ? "not worked out for straight walls" : "not worked out: no mesh given");
  }
  draw_facts(flow, "Loads, full and just soaked", facts);
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
  loads(flow, plan, vessel);
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
