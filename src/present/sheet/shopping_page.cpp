#include <algorithm>
#include <optional>

#include "planning/plan/shopping.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::Plan;
using plan::PricedPiece;

std::string size_of(const vessel::Piece& piece, UnitSystem units) {
  std::vector<std::string> parts;
  if (piece.length_m > 0.0) parts.push_back(quantity::format_workshop(piece.length_m, units));
  if (piece.width_m > 0.0) parts.push_back(quantity::format_workshop(piece.width_m, units));
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : " × ") + part;
  if (piece.diameter_m > 0.0) {
    // Pipes and wire are sold by round numbers: written as bought, "110 mm" or "4 in".
    const std::string sold = quantity::format(piece.diameter_m, Dimension::length, units);
    const bool odd = units == UnitSystem::us && sold.find('.') != std::string::npos;  // a metric rod
    text += (text.empty() ? "Ø " : ", Ø ") + (odd ? quantity::format_workshop(piece.diameter_m, units) : sold);
  }
  return text;
}

std::string what_for(const vessel::Piece& piece) {
  return piece.use.empty() ? piece.what : piece.what + " (" + piece.use + ")";
}

std::string amount_of(const PricedPiece& line, UnitSystem units) {
  if (line.amount_unit == "m2") return quantity::format(line.amount, Dimension::area, units);
  if (line.piece.price_key == "water") return water_volume(1000.0 * line.amount, units, 3);
  if (line.amount_unit == "m3") return quantity::format(line.amount, Dimension::volume, units);
  if (line.amount_unit == "m") return quantity::format(line.amount, Dimension::length, units);
  if (line.amount_unit == "kg") return quantity::format(line.amount, Dimension::mass, units);
  if (line.amount_unit == "each") return "";  // the pieces say it
  return decimal(line.amount, 1) + " " + line.amount_unit;
}

std::string price_of(const PricedPiece& line, const std::string& currency) {
  return line.priced ? money(line.cost, currency) : "no price given";
}

void vessel_parts(Flow& flow, const Plan& plan) {
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 9.5;
  table.columns = {{.head = "", .fixed_pt = 14.0, .paint = paint_tick_box},
                   {.head = "What, and what for"},
                   {.head = "Pieces", .align = Align::right, .strong = true},
                   {.head = "Size of one"},
                   {.head = "In all", .align = Align::right},
                   {.head = "Price", .align = Align::right}};
  for (const PricedPiece& line : plan.shopping) {
    table.rows.push_back({{"", what_for(line.piece), std::to_string(line.count), size_of(line.piece, units),
                           amount_of(line, units), price_of(line, plan.site.currency)}});
  }
  table.heading = "Vessels, " + std::to_string(plan.vessels_needed) + " in all";
  draw_table(flow, table);
}

/// Loose volume of a feedstock over all vessels, found by its name.
std::optional<double> loose_volume_m3(const Plan& plan, const std::string& name) {
  double volume = 0.0;
  for (const plan::VesselPlan& vessel : plan.vessels) {
    for (const material::Part& part : vessel.blend_as_delivered.parts) {
      if (part.feedstock.name != name && part.feedstock.id != name) continue;
      if (part.feedstock.bulk_density_kg_m3 <= 0.0) return std::nullopt;
      volume += part.mass_wet_kg / part.feedstock.bulk_density_kg_m3 * vessel.design.count;
    }
  }
  return volume > 0.0 ? std::optional(volume) : std::nullopt;
}

void feedstocks(Flow& flow, const Plan& plan) {
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 9.5;
  table.columns = {{.head = "", .fixed_pt = 14.0, .paint = paint_tick_box},
                   {.head = "Feedstock, as delivered", .strong = true},
                   {.head = "Mass", .align = Align::right},
                   {.head = "Loose volume", .align = Align::right},
                   {.head = "Price", .align = Align::right}};
  for (const PricedPiece& line : plan.feedstock_shopping) {
    const auto volume = loose_volume_m3(plan, line.piece.what);
    table.rows.push_back({{"", line.piece.what, amount_of(line, units),
                           volume ? quantity::format(*volume, Dimension::volume, units) : "not known",
                           price_of(line, plan.site.currency)}});
  }
  table.heading = "Feedstocks for all vessels, one fill each";
  draw_table(flow, table);
}

}  // namespace

void shopping_page(Flow& flow, const Plan& plan) {
  flow.start_sheet("Shopping list", "everything for " + std::to_string(plan.vessels_needed) +
                                        (plan.vessels_needed == 1 ? " vessel" : " vessels") + " and the first fill");
  vessel_parts(flow, plan);
  feedstocks(flow, plan);
  Table sums;
  sums.heading = "Sums";
  sums.columns = {{.head = ""}, {.head = "", .align = Align::right}};
  const std::string& currency = plan.site.currency;
  const plan::PricedSum parts = plan::sum_of(plan.shopping);
  const plan::PricedSum feed = plan::sum_of(plan.feedstock_shopping);
  const plan::PricedSum all = plan::material_sum(plan);
  sums.rows.push_back({{"Vessels, " + parts.words(), money(parts.cost, currency)}});
  sums.rows.push_back({{"Feedstocks, " + feed.words(), money(feed.cost, currency)}});
  sums.rows.push_back({{"Together, " + all.words(), money(all.cost, currency)}, RowKind::total});
  draw_table(flow, sums);
  flow.paragraph(
      "Panels, rolls, boards and pipes named in the site file are whole ones with their waste; other sizes are cut "
      "sizes, "
      "without waste. Forms and what holds them are those of one filling day: they go on to the next vessel. Nothing "
      "has "
      "spare. Loose volumes are as delivered, before soaking. "
      "Prices are those of the site file; ask the seller.",
      style::note);
  std::vector<std::pair<std::string, std::string>> work;
  for (const plan::LabourLine& line : plan.labour) {
    work.emplace_back(line.what,
                      clock_time(line.hours) + (line.cost > 0.0 ? ", " + money(line.cost, plan.site.currency) : ""));
  }
  if (work.empty()) return;
  draw_facts(flow, "Work over the first year, all vessels", work);
}

}  // namespace stillheap::sheet
