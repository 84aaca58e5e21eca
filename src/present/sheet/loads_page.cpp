#include <algorithm>
#include <cmath>

#include "domain/vessel/setting_out.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/pressure_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

/// Rows of the load table: the same number for the filling just soaked and for every pore full of water.
class LoadTable {
 public:
  LoadTable(const VesselPlan& vessel, UnitSystem units) : vessel_(vessel), units_(units) {
    table_.heading = "Loads, full vessel";
    table_.size_pt = 9.0;
    table_.row_padding_pt = 2.0;
    table_.columns = {{.head = "Load"},
                      {.head = "Just soaked", .align = Align::right, .strong = true},
                      {.head = "Every pore full", .align = Align::right},
                      {.head = "How it is worked out, and after whom"}};
  }

  template <typename Write>
  void row(const std::string& what, Write write, const std::string& how) {
    table_.rows.push_back({{what, write(vessel_.loads), write(vessel_.loads_waterlogged), how}});
  }
  void row(const std::string& what, double vessel::Loads::*value, Dimension dimension, const std::string& how) {
    row(
        what, [&](const vessel::Loads& l) { return quantity::format(l.*value, dimension, units_); }, how);
  }
  void pressure(const std::string& what, double vessel::Loads::*value, const std::string& how) {
    row(
        what, [&](const vessel::Loads& l) { return quantity::format_ground(l.*value, units_); }, how);
  }
  [[nodiscard]] const Table& table() const { return table_; }

 private:
  const VesselPlan& vessel_;
  UnitSystem units_;
  Table table_;
};

void add_weight(LoadTable& rows, const vessel::Loads& soaked, UnitSystem units) {
  rows.row("Mass of the filling", &vessel::Loads::mass_wet_kg, Dimension::mass,
           "volume × density; pores full: density + air space × that of water");
  rows.pressure("Pressure on the base", &vessel::Loads::base_pressure_pa, "density × gravity × depth");
  rows.pressure("On the ground, whole footprint", &vessel::Loads::ground_pressure_pa, "weight / footprint");
  if (soaked.ground.bearers > 0) {
    rows.row(
        "On the ground, under the bearer pressed most",
        [units](const vessel::Loads& l) { return quantity::format_ground(l.ground.bearer_pressure_pa, units); },
        std::to_string(soaked.ground.bearers) + " bearers " +
            quantity::format_workshop(soaked.ground.bearer_width_m, units) + " wide, at most " +
            quantity::format_workshop(soaked.ground.bearer_spacing_m, units) +
            " apart: pressure × footprint nearest to it / its own area");
  }
  if (soaked.ground.settling_m > 0.0) {
    rows.row(
        "Ground goes down under the middle",
        [units](const vessel::Loads& l) { return quantity::format(l.ground.settling_m, Dimension::length, units, 2); },
        "2 p a (1 - 0.3²) / E, disc alike (Boussinesq)");
  }
}

void add_lean(LoadTable& rows, UnitSystem units) {
  rows.row(
      "Under the lower edge at the allowed lean",
      [units](const vessel::Loads& l) { return quantity::format_ground(l.ground.edge_pressure_pa, units); },
      "stiff base: p (1 + e / kern), kern D/8 of a disc, b/6 of a rectangle (Navier)");
}

void add_sides(LoadTable& rows, const VesselPlan& vessel, const site::Site& site, UnitSystem units) {
  rows.pressure("Side pressure at the bottom, wall helps", &vessel::Loads::side_pressure_pa,
                "Janssen 1895, friction " + decimal(site.loads.friction.friction, 2));
  rows.pressure("Side pressure, wall does not help (judged)", &vessel::Loads::side_pressure_no_friction_pa,
                "K × pressure on the base, K " + decimal(site.loads.friction.pressure_ratio, 2) +
                    " (EN 1991-4: K = 1.1 (1 - sin φ))");
  if (vessel.loads.hoop_tension_n_m > 0.0) {
    rows.row(
        "Pull around the cage", [units](const vessel::Loads& l) { return line_load(l.hoop_tension_n_m, units); },
        "T = p D / 2 (thin ring), at the bottom");
    rows.row(
        "Pull on one tie of the joint", [units](const vessel::Loads& l) { return force(l.tie_force_n, units); },
        "T × " + quantity::format_workshop(vessel::tie_pitch_m(vessel.design), units) + " between ties");
  }
  if (vessel.loads.side_force_n_m > 0.0) {
    rows.row(
        "Push on a straight side", [units](const vessel::Loads& l) { return line_load(l.side_force_n_m, units); },
        "p × depth / 2, at a third of the depth");
  }
  if (vessel.loads.wire_safety <= 0.0) return;
  const vessel::WireMesh& mesh = *vessel.design.mesh;
  rows.row(
      "Pull in one wire", [units](const vessel::Loads& l) { return force(l.wire_force_n, units); },
      "T × " + quantity::format(mesh.spacing_m, Dimension::length, units) + " between wires");
  rows.row("Stress in it", &vessel::Loads::wire_stress_pa, Dimension::pressure,
           "pull / (π d² / 4), d " + quantity::format(mesh.wire_diameter_m, Dimension::length, units));
  rows.row(
      "Allowed stress over stress", [](const vessel::Loads& l) { return decimal(l.wire_safety, 1); },
      "allowed " + quantity::format(mesh.allowed_stress_pa, Dimension::pressure, units) + "; wanted at least " +
          decimal(site.loads.wanted_safety, 1));
}

std::string verdict(bool good) { return good ? "Holds: " : "Does not hold: "; }

std::string ground_verdict(const Plan& plan, const VesselPlan& vessel) {
  const auto pressure = [&](double value) { return quantity::format_ground(value, plan.site.units); };
  const vessel::Ground& ground = vessel.loads.ground;
  const double worst = std::max({vessel.loads.ground_pressure_pa, ground.bearer_pressure_pa, ground.edge_pressure_pa});
  const double bearing = plan.site.soil_bearing_pa;
  if (bearing <= 0.0) {
    return "Not judged: what the ground bears is not given. Tables for building on it (International Building Code "
           "2012, table 1806.2) presume from " +
           pressure(vessel::presumed_bearing_clay_pa) + " on clay or silt to " +
           pressure(vessel::presumed_bearing_gravel_pa) +
           " on sandy gravel, and nothing on peat, mud or loose fill; ask the local code.";
  }
  std::string text =
      verdict(worst <= bearing) + "most on the ground " + pressure(worst) + ", it bears " + pressure(bearing) + ".";
  if (worst > bearing && ground.bearers > 0) {
    const double width = ground.bearer_width_m * ground.bearer_pressure_pa / bearing;
    text += " Bearers or slabs under them " +
            quantity::format_workshop(std::ceil(width * 200.0) / 200.0, plan.site.units) +
            " wide would spread it enough.";
  }
  return text;
}

std::string wire_verdict(const Plan& plan, const VesselPlan& vessel) {
  if (vessel.design.footprint == vessel::Footprint::rectangular) {
    return "Not judged: straight walls bend; posts, rails or ties across are designed locally for the push above.";
  }
  if (vessel.loads.wire_safety <= 0.0) return "Not judged: the site file gives no mesh.";
  const double wanted = plan.site.loads.wanted_safety;
  return verdict(vessel.loads.wire_safety >= wanted) + decimal(vessel.loads.wire_safety, 1) + " times, wanted " +
         decimal(wanted, 1) + "; with every pore full " + decimal(vessel.loads_waterlogged.wire_safety, 1) + " times.";
}

std::string lean_words(const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  const vessel::Ground& ground = vessel.loads.ground;
  const double lean = plan.site.loads.tilt_allowed;
  return percent(lean, 1) + ": the brim at most " + quantity::format_workshop(lean * vessel.design.height_m, units) +
         " out of plumb. The upper edge of the base lifts at " + percent(ground.tilt_edge) + "; it goes over at " +
         percent(ground.tilt_over) + ".";
}

void judgement(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  std::vector<std::pair<std::string, std::string>> facts{{"Ground", ground_verdict(plan, vessel)},
                                                         {"Wire of the cage", wire_verdict(plan, vessel)},
                                                         {"Lean allowed", lean_words(plan, vessel)}};
  if (!vessel.forecast.history.empty()) {
    facts.push_back({"The filling settles over the forecast", percent_span(vessel.forecast.summary.height_lost) +
                                                                  " of its height; ties and cover follow it down"});
  }
  facts.push_back({"On a pallet", "it must carry " +
                                      quantity::format(vessel.loads_waterlogged.mass_wet_kg, Dimension::mass, units) +
                                      " at rest, evenly spread; what a pallet bears only its maker can say"});
  draw_facts(flow, "Judged, just soaked", facts, 10.0);
}

}  // namespace

void loads_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Loads", vessel_title(vessel.design));
  judgement(flow, plan, vessel);
  flow.caution_box(
      "These numbers do not replace an engineer",
      {"Set it level and check with plumb line and level after filling, after a week and after every thaw. "
       "Leaning more than allowed: keep people off the lower side, empty it from above, set the base right.",
       "Wind, people, animals, frost heave, soft spots, slopes and the vessel's own parts are not in these "
       "numbers. Where a local code asks for it, a licensed engineer decides."},
      10.0);
}

void load_table_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const UnitSystem units = plan.site.units;
  flow.start_sheet("Loads in full", vessel_title(vessel.design));
  draw_pressure_figure(flow.canvas(), flow.take(pressure_figure_pt), vessel, plan.site.loads.friction, units);
  LoadTable rows(vessel, units);
  add_weight(rows, vessel.loads, units);
  add_lean(rows, units);
  add_sides(rows, vessel, plan.site, units);
  draw_table(flow, rows.table());
}

}  // namespace stillheap::sheet
