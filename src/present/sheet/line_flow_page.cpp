#include <algorithm>
#include <cmath>

#include "planning/plan/vessel_step.hpp"
#include "planning/water/fittings.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/line_figure.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;
using Facts = std::vector<std::pair<std::string, std::string>>;

constexpr double even_enough = 0.80;  // Keller and Bliesner 1990, from memory; the warning's limit

/// Writes amounts in the reader's units.
struct Writer {
  UnitSystem units;
  [[nodiscard]] std::string length(double m) const { return quantity::format(m, Dimension::length, units); }
  [[nodiscard]] std::string flow(double m3_s) const { return quantity::format(m3_s, Dimension::flow, units); }
  /// Always pounds a square inch for US readers: a line's pressures are compared with each other.
  [[nodiscard]] std::string pressure(double pa) const {
    if (units == UnitSystem::metric) return quantity::format(pa, Dimension::pressure, units);
    const double psi = pa / quantity::parse("1 psi", Dimension::pressure);
    return decimal(psi, psi < 10.0 ? 2 : 1) + " psi";
  }
};

/// Drill holes a spacing apart; of a ring the first one lies half of what is left over from the inlet.
Facts setting_out(const Writer& write, const water::Line& pipe, const water::LineFlow& flow) {
  const double first_m = flow.hole_distance_m.empty() ? pipe.spacing_m : flow.hole_distance_m.front();
  Facts facts{
      {"Line", write.length(pipe.length_m) + " long, " + write.length(pipe.inside_diameter_m) + " inside, " +
                   (pipe.ring ? "closed into a ring, water from both sides" : "fed at one end, the other capped")},
      {"Holes", std::to_string(flow.holes) + " of " + write.length(pipe.hole_diameter_m) + ", one every " +
                    write.length(pipe.spacing_m) + ", the first " + quantity::format_workshop(first_m, write.units) +
                    " from the inlet"}};
  if (pipe.sprays > 0) {
    facts.emplace_back("Small sprays over the top", std::to_string(pipe.sprays) + ", each " +
                                                        write.flow(pipe.spray_flow_m3_s) + " at " +
                                                        write.pressure(pipe.spray_pressure_pa));
  }
  return facts;
}

Facts flow_facts(const Writer& write, const water::Line& pipe, const water::LineFlow& flow) {
  const auto [least, most] = std::minmax_element(flow.hole_flow_m3_s.begin(), flow.hole_flow_m3_s.end());
  const double lowest_pa = *std::min_element(flow.hole_pressure_pa.begin(), flow.hole_pressure_pa.end());
  Facts facts{
      {"Flow in all, with sprays",
       write.flow(flow.total_flow_m3_s) + (flow.supply_limits ? "; the supply gives no more" : "")},
      {"Flow of a hole, most and least", write.flow(*most) + " and " + write.flow(*least) + "; they differ by " +
                                             percent(water::flow_variation(flow), 1)},
      {"Pressure at inlet and lowest", write.pressure(flow.inlet_pressure_pa) + " and " + write.pressure(lowest_pa)},
      {"Lost on the way", write.pressure(flow.inlet_pressure_pa - lowest_pa) +
                              " hole by hole (Darcy-Weisbach, Colebrook-White); " +
                              write.pressure(water::ruled_loss_pa(pipe, flow)) +
                              " by rule (Hazen-Williams, C 140, times Christiansen's F)"},
      {"Evenness", percent(flow.christiansen_uniformity, 1) + " (Christiansen); driest quarter " +
                       percent(flow.low_quarter_uniformity, 1) + " of the mean; " +
                       (flow.christiansen_uniformity >= even_enough ? "even enough" : "not even enough, wanted 80 %")}};
  return facts;
}

std::string regulator_words(const Writer& write, const Plan& plan, const water::LineFlow& flow) {
  const water::Supply& supply = plan.site.water.supply;
  std::string text = "set to " + write.pressure(supply.pressure_pa) + ", passing " + write.flow(flow.total_flow_m3_s) +
                     " a vessel that runs";
  const double before_pa = plan.site.water.before_regulator_pa;
  if (before_pa <= 0.0)
    return text + "; measure the pressure before it with nothing running, and choose one rated above";
  if (before_pa <= supply.pressure_pa * 1.001)
    return "not needed: the supply never gives more than " + write.pressure(before_pa);
  return text + "; before it up to " + write.pressure(before_pa) + ", so rated above that";
}

Facts fitting_facts(const Writer& write, const Plan& plan, const water::Line& pipe, const water::LineFlow& flow) {
  const water::Screen screen = water::screen_for(pipe.hole_diameter_m);
  const long fine_um = std::lround(pipe.hole_diameter_m * water::filter_share * 1e6);
  Facts facts;
  facts.emplace_back("Back-flow preventer, first at the tap",
                     plan.site.water.drinking_water
                         ? "needed: the kind the local plumbing code names, fitted and tested as it asks"
                         : "none named: no drinking water here. One is needed as soon as the line can be joined to it");
  facts.emplace_back("Timer valve", "opens at the pressure of the supply; battery out before frost");
  facts.emplace_back("Filter", std::to_string(screen.mesh) + " mesh or finer, openings at most " +
                                   std::to_string(fine_um) +
                                   " µm: an eighth of the hole (Agriculture Victoria note AG0136; sieves ASTM E11)");
  facts.emplace_back("Pressure regulator", regulator_words(write, plan, flow));
  return facts;
}

std::vector<std::string> frost_lines(const Plan& plan, const water::Line& pipe) {
  const double held_kg = water::held_water_m3(pipe) * water::water_density_kg_m3;
  return {"Lay the line with a fall to one low point and put a drain cock there: " +
              water_volume(held_kg, plan.site.units) + " stand in it and freeze.",
          "Before frost: shut the tap, open the cock and the far end, let it run empty, take filter, regulator" +
              std::string(plan.site.water.drinking_water ? ", timer and back-flow preventer" : " and timer") +
              " indoors, leave valves half open.",
          "When put back: run it open-ended for a minute, clean the filter, look at every hole."};
}

}  // namespace

void line_fittings(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const Writer write{plan.site.units};
  const water::Line pipe = plan::line_for(plan.site, vessel.design);
  draw_facts(flow, "Drill and lay", setting_out(write, pipe, vessel.line_flow), 10.0);
  draw_facts(flow, "From the tap to the line, in this order", fitting_facts(write, plan, pipe, vessel.line_flow), 10.0);
  flow.caution_box("Draining before frost", frost_lines(plan, pipe), 10.0);
}

void line_flow_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const Writer write{plan.site.units};
  const water::Line pipe = plan::line_for(plan.site, vessel.design);
  flow.start_sheet("Flow and pressure", vessel_title(vessel.design));
  draw_line_figure(flow.canvas(), flow.take(line_figure_pt), pipe, vessel.line_flow, plan.site.units);
  draw_facts(flow, "One vessel running", flow_facts(write, pipe, vessel.line_flow), 9.0);
}

}  // namespace stillheap::sheet
