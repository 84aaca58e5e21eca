#include <algorithm>
#include <cmath>

#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::VesselPlan;

constexpr double quarters = 4.0;  // a pail is filled by eye to a quarter

/// Pails to a quarter: "2 1/4".
std::string pails_text(double pails) {
  const int count = static_cast<int>(std::lround(pails * quarters));
  const char* const part[] = {"", " 1/4", " 1/2", " 3/4"};
  if (count == 0) return "0";
  const std::string whole = count / 4 == 0 ? "" : std::to_string(count / 4);
  const std::string rest = part[count % 4];
  return whole.empty() && !rest.empty() ? rest.substr(1) : whole + rest;
}

/// One material over the batches, in whole quarters of a pail: some batches take a quarter more than the rest, so that
/// the last is no odd one and nothing is left over.
struct Share {
  double more = 0.0;  ///< pails of each of the first batches
  int until = 0;      ///< how many those are
  double then = 0.0;  ///< of each after them
};

Share share_of(const material::Part& part, double pail_m3, int batches) {
  const double pails = part.mass_wet_kg / part.feedstock.bulk_density_kg_m3 / pail_m3;
  const int all = static_cast<int>(std::lround(pails * quarters));
  const int least = all / batches, rest = all % batches;
  if (rest == 0) return {least / quarters, batches, least / quarters};
  return {(least + 1) / quarters, rest, least / quarters};
}

void pail_table(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const int batches = vessel.fill.soak.batches;
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 14.0;
  table.row_padding_pt = 5.0;
  table.heading = std::to_string(batches) + (batches == 1 ? " batch" : " batches") + " for one vessel, pails of " +
                  quantity::format(plan.site.practice.pail_m3, Dimension::volume, units) + ", loose, as delivered";
  table.columns = {{.head = "Material", .strong = true},
                   {.head = "Pails a batch", .align = Align::right, .strong = true},
                   {.head = "up to batch", .align = Align::right},
                   {.head = "then, and in the last", .align = Align::right, .strong = true},
                   {.head = "Of it a batch", .align = Align::right},
                   {.head = "One vessel", .align = Align::right}};
  for (const material::Part& part : vessel.blend_as_delivered.parts) {
    if (part.feedstock.bulk_density_kg_m3 <= 0.0) continue;
    const Share share = share_of(part, plan.site.practice.pail_m3, batches);
    table.rows.push_back({{part.feedstock.name, pails_text(share.more), std::to_string(share.until),
                           share.until < batches ? pails_text(share.then) : "the same",
                           quantity::format(part.mass_wet_kg / batches, Dimension::mass, units, 2),
                           quantity::format(part.mass_wet_kg, Dimension::mass, units)}});
  }
  draw_table(flow, table);
}

/// Tick boxes, a batch each.
void batch_ticks(Flow& flow, int batches) {
  constexpr double cell = 34.0;
  const int in_row = static_cast<int>(flow.width() / cell);
  const int rows = (batches + in_row - 1) / in_row;
  flow.heading("Tick each batch as it goes in", cell * rows);
  const Box field = flow.take(cell * rows + 8.0);
  for (int i = 0; i < batches; ++i) {
    const Box box{field.x + cell * (i % in_row), field.y + cell * (i / in_row), cell - 6.0, cell - 6.0};
    frame(flow.canvas(), box, {ink, 1.0});
    draw_label(flow.canvas(), {box.x + 3.0, box.y + 2.0}, std::to_string(i + 1), {12.0, Weight::regular, soft},
               Across::left, Down::top);
  }
}

}  // namespace

void batch_card_page(Flow& flow, const Plan& plan, const VesselPlan& vessel) {
  const material::SoakPlan& soak = vessel.fill.soak;
  if (soak.too_wet_already || soak.batches == 0 || plan.site.practice.pail_m3 <= 0.0) return;
  const UnitSystem units = plan.site.units;
  const material::Bath& bath = plan.site.bath;
  flow.start_sheet("Batch card", vessel_title(vessel.design));
  pail_table(flow, plan, vessel);
  const auto time = [units](double s) { return quantity::format(s, Dimension::duration, units, 2); };
  draw_facts(
      flow, "Water",
      {{"In the bath before the first batch", water_volume(1000.0 * bath.volume_m3, units, 2)},
       {"To top up after each batch, what it took along", water_volume(soak.water_taken_kg / soak.batches, units, 2)},
       {"To draw in all, one vessel", water_volume(soak.water_to_draw_kg, units, 3)},
       {"In the bath", time(bath.soak_s) + ", pushed under and stirred twice"},
       {"Draining over it", time(bath.drain_s)}},
      13.0);
  flow.paragraph(
      "1. Tip the pails of one batch on a sheet or the ground in thin layers, the coarsest first. 2. Turn the pile "
      "over "
      "twice with a fork, from one side to the other, until no layer shows. 3. Fork it into the bath and push it "
      "under. "
      "4. Lift it out with a fork or in a net on a rack over the bath. 5. Fill pails from the rack and carry them. "
      "Shovel "
      "out grit and sludge that has settled when the fork strikes it, and spread it on the vessel's top.",
      {13.0});
  flow.space(6.0);
  batch_ticks(flow, soak.batches);
  flow.caution_box("By the bath",
                   {"A child or an animal can drown in it: cover it whenever nobody stands by it.",
                    "Used water carries germs: wash hands, keep it from wells and ditches, use it up on the heap."},
                   12.0);
}

}  // namespace stillheap::sheet
