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

/// "50000 mm x 2300 mm; 57.6 m in all": the amount only where the pieces and their size do not say it.
std::string size_or_amount(const PricedPiece& line, UnitSystem units) {
  const std::string size = size_of(line.piece, units);
  const std::string amount = amount_of(line, units);
  if (size.empty() || amount.empty()) return size + amount;
  return size + "; " + amount + " in all";
}

std::string price_of(const PricedPiece& line, const std::string& currency) {
  return line.priced ? money(line.cost, currency) : "no price given";
}

/// Bought by the piece without size or price: what is mostly at hand.
bool is_kit(const PricedPiece& line, UnitSystem units) {
  return !line.priced && !line.stock && size_or_amount(line, units).empty();
}

/// Rows of one thing in several sizes are one row.
void add_row(Table& table, const Plan& plan, const PricedPiece& line) {
  const UnitSystem units = plan.site.units;
  const std::string size = size_or_amount(line, units);
  if (!table.rows.empty() && !line.priced) {
    std::vector<std::string>& last = table.rows.back().cells;
    if (last[1] == what_for(line.piece) && last[4] == price_of(line, plan.site.currency)) {
      if (last[3].find(": ") == std::string::npos) last[3] = last[2] + ": " + last[3];
      last[3] += "; " + std::to_string(line.count) + ": " + size;
      last[2] = std::to_string(std::stoi(last[2]) + line.count);
      return;
    }
  }
  table.rows.push_back(
      {{"", what_for(line.piece), std::to_string(line.count), size, price_of(line, plan.site.currency)}});
}

void vessel_parts(Flow& flow, const Plan& plan) {
  Table table;
  table.size_pt = 9.5;
  table.columns = {{.head = "", .fixed_pt = 14.0, .paint = paint_tick_box},
                   {.head = "What, and what for"},
                   {.head = "Pieces", .align = Align::right, .strong = true},
                   {.head = "Size of one, or in all", .fixed_pt = 150.0},
                   {.head = "Price", .align = Align::right}};
  for (const PricedPiece& line : plan.shopping) {
    if (!is_kit(line, plan.site.units)) add_row(table, plan, line);
  }
  table.heading = "Vessels, " + std::to_string(plan.vessels_needed) + " in all";
  draw_table(flow, table);
}

/// Two things a row.
void kit(Flow& flow, const Plan& plan) {
  std::vector<const PricedPiece*> lines;
  for (const PricedPiece& line : plan.shopping) {
    if (is_kit(line, plan.site.units)) lines.push_back(&line);
  }
  const std::size_t rows = (lines.size() + 1) / 2;
  Table table;
  table.size_pt = 9.5;
  table.heading = "Small parts, tools and protection (no price given)";
  for (std::size_t half = 0; half < 2; ++half) {
    const auto tick = [half, rows, count = lines.size()](Canvas& canvas, const Box& cell, std::size_t row) {
      if (half * rows + row < count) paint_tick_box(canvas, cell, row);
    };
    table.columns.push_back({.head = "", .fixed_pt = 14.0, .paint = tick});
    table.columns.push_back({.head = "", .align = Align::right, .fixed_pt = 24.0, .strong = true});
    table.columns.push_back({.head = "", .fixed_pt = 0.5 * flow.width() - 64.0});
  }
  for (std::size_t row = 0; row < rows; ++row) {
    Row cells;
    for (std::size_t i = row; i < lines.size(); i += rows) {
      cells.cells.insert(cells.cells.end(), {"", std::to_string(lines[i]->count), what_for(lines[i]->piece)});
    }
    table.rows.push_back(std::move(cells));
  }
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
  kit(flow, plan);
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
}

}  // namespace stillheap::sheet
