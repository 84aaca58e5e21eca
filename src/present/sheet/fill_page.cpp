#include <algorithm>

#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

/// What a pail weighs, beside what one person may lift; the steps say what to do about it.
std::string pail_words(const fill::FillPlan& fill, UnitSystem units) {
  const std::string mass = quantity::format(fill.pail_mass_kg, Dimension::mass, units);
  if (fill.pail_limit_kg <= 0.0) return mass + "; too far for one person to lift";
  return mass + "; one person lifts at most " + quantity::format(fill.pail_limit_kg, Dimension::mass, units);
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
      {"People", std::to_string(plan.site.practice.people) + (plan.site.practice.people == 1 ? " person" : " people")},
      {"Time on the clock", clock_time(fill.clock_s / 3600.0) + " with " + std::to_string(plan.site.practice.baths) +
                                (plan.site.practice.baths == 1 ? " bath" : " baths") + ", soaking included; " +
                                clock_time(fill.people_hours) + " of it work of all people together"}};
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
  if (fill.pail_mass_kg > 0.0) facts.emplace_back("A full pail", pail_words(fill, units));
  facts.emplace_back("Forms out", quantity::format(plan.site.practice.forms_out_after_s, Dimension::duration, units) +
                                      " after filling");
  draw_facts(flow, "", facts, 11.0);
}

void steps(Flow& flow, const VesselPlan& vessel) {
  Table table;
  table.size_pt = 11.0;
  table.row_padding_pt = 3.0;
  table.columns = {{.head = "", .fixed_pt = 16.0, .paint = paint_tick_box},
                   {.head = "", .align = Align::right, .strong = true},
                   {.head = ""}};
  for (std::size_t i = 0; i < vessel.fill.steps.size(); ++i) {
    table.rows.push_back({{"", std::to_string(i + 1), vessel.fill.steps[i]}});
  }
  table.heading = "Order of work";
  draw_table(flow, table);
}

/// A numbered square a lift, to tick while filling.
void lift_ticks(Flow& flow, const VesselPlan& vessel) {
  constexpr int most = 60;
  const int lifts = std::min(vessel.fill.lifts, most);
  if (lifts <= 0) return;
  constexpr double cell = 27.0;
  const int in_row = static_cast<int>(flow.width() / cell);
  const int rows = (lifts + in_row - 1) / in_row;
  flow.heading("Tick each lift", cell * rows);
  const Box field = flow.take(cell * rows + 8.0);
  for (int i = 0; i < lifts; ++i) {
    const int row = i / in_row;
    const int column = i % in_row;
    const Box box{field.x + cell * column, field.y + cell * row, cell - 5.0, cell - 5.0};
    frame(flow.canvas(), box, {ink, 0.8});
    draw_label(flow.canvas(), {box.x + 2.0, box.y + 1.0}, std::to_string(i + 1), {7.5, Weight::regular, soft},
               Across::left, Down::top);
  }
}

}  // namespace

void fill_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  flow.start_sheet("Fill card", vessel_title(vessel.design));
  figures(flow, plan, vessel);
  steps(flow, vessel);
  lift_ticks(flow, vessel);
  flow.caution_box(
      "While filling",
      cautions_at(plan, {"filling"},
                  "Dust and spores harm the lungs: wet the material and wear a mask. Lift with a second person. "
                  "Wash hands after manure. Local codes and licensed practice come first."),
      10.5);
}

}  // namespace stillheap::sheet
