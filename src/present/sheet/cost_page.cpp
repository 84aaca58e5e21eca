#include <algorithm>
#include <cmath>

#include "planning/plan/shopping.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/cut_drawing.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::MaterialCuts;
using plan::OtherSize;
using plan::Plan;
using plan::PricedPiece;

/// What to ask a seller for, by what it must do.
std::string ask_for(const PricedPiece& line) {
  const std::string& key = line.piece.price_key;
  if (key == "mesh") return "welded or woven wire, galvanised, of the wire and spacing in the site file";
  if (key == "lining" || key == "base_cloth" || key == "cloth") {
    return "woven cloth that lets air and water through and withstands sun, as for ground cover or shade";
  }
  if (key == "form") return "smooth straight pipe with a stiff wall, clean, without a socket";
  if (key == "slat" || key == "board") return "rot-resistant or charred timber; none treated with poison";
  if (key == "line") return "pipe for drinking water or irrigation, rated above the standing pressure";
  if (key == "spray") return "small spray with its flow and pressure printed on it";
  if (key == "tie") return "galvanised or stainless wire, no thinner than that of the mesh";
  if (key == "fitting") return "fittings of the line's size, same pressure rating";
  if (key == "water") return "as it is metered";
  if (line.piece.use == "watering") return "rated above the standing pressure of the supply";
  if (line.piece.use == "checks") return "stem as long as half the vessel is wide";
  return line.piece.use;
}

std::string amount_words(const PricedPiece& line, UnitSystem units) {
  if (line.amount_unit == "m2") return quantity::format(line.amount, Dimension::area, units);
  if (line.piece.price_key == "water") return water_volume(1000.0 * line.amount, units, 3);
  if (line.amount_unit == "m3") return quantity::format(line.amount, Dimension::volume, units);
  if (line.amount_unit == "m") return quantity::format(line.amount, Dimension::length, units);
  if (line.amount_unit == "kg") return quantity::format(line.amount, Dimension::mass, units);
  return std::to_string(line.count);
}

std::string unit_price(const PricedPiece& line, UnitSystem units) {
  if (!line.priced || line.amount <= 0.0) return "";
  if (line.stock && line.cost == 0.0) return "at hand";
  const double each = line.cost / line.amount;
  if (line.amount_unit == "m2") return quantity::format(each, Dimension::money_per_area, units);
  if (line.piece.price_key == "water" && units == UnitSystem::us) {
    return decimal(each * 1000.0 * quantity::parse("1 gal", Dimension::volume), 2) + " per 1000 gal";
  }
  if (line.amount_unit == "m3") return quantity::format(each, Dimension::money_per_volume, units);
  if (line.amount_unit == "m") return quantity::format(each, Dimension::money_per_length, units);
  return quantity::format(each, Dimension::money_per_piece, units);
}

std::string name_of(const PricedPiece& line, UnitSystem units) {
  if (!line.stock) return line.piece.use.empty() ? line.piece.what : line.piece.what + ", " + line.piece.use;
  std::string text = line.piece.what + " " + quantity::format(line.piece.length_m, Dimension::length, units, 4);
  const double width_m = std::max(line.piece.width_m, line.piece.diameter_m);
  if (width_m > 0.0) text += " × " + quantity::format(width_m, Dimension::length, units);
  return text;
}

void material_table(Flow& flow, const Plan& plan) {
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 9.0;
  table.row_padding_pt = 2.0;
  table.heading =
      "Materials of all vessels, " + (plan.site.currency.empty() ? "currency not named" : plan.site.currency);
  table.columns = {{.head = "What", .strong = true},
                   {.head = "Ask for"},
                   {.head = "Amount", .align = Align::right},
                   {.head = "Price", .align = Align::right},
                   {.head = "Cost", .align = Align::right, .strong = true}};
  for (const PricedPiece& line : plan.shopping) {
    table.rows.push_back({{name_of(line, units), ask_for(line), amount_words(line, units), unit_price(line, units),
                           line.priced ? decimal(line.cost, 2) : "no price"}});
  }
  const plan::PricedSum sum = plan::sum_of(plan.shopping);
  const int vessels = std::max(1, plan.vessels_needed);
  table.rows.push_back({{"Together, " + sum.words(), "", "", "", decimal(sum.cost, 2)}, RowKind::total});
  table.rows.push_back({{"A vessel, of those lines", "", "", "", decimal(sum.cost / vessels, 2)}, RowKind::total});
  draw_table(flow, table);
}

std::string stock_name(const cut::Stock& stock, UnitSystem units) {
  return stock_size(stock, units) + (stock.by_length ? ", by length" : "");
}

std::string change_of_cost(const cut::JobCuts& now, const cut::JobCuts& other) {
  if (!now.priced || !other.priced || !other.done()) return "";
  const double change = other.cost - now.cost;
  return (change >= 0.0 ? "+" : "-") + decimal(std::abs(change), 2);
}

std::string effect_of(const Plan& plan, const OtherSize& other) {
  const UnitSystem units = plan.site.units;
  std::string text = other.cuts.note;
  if (other.diameter_m <= 0.0) return text.empty() ? "cut sizes stay as drawn" : text;
  const plan::VesselPlan* round = nullptr;
  for (const plan::VesselPlan& vessel : plan.vessels) {
    if (round == nullptr && vessel.design.footprint == vessel::Footprint::round) round = &vessel;
  }
  if (round == nullptr) return text;  // only round vessels have other diameters
  const double now_m3 = vessel::material_volume_m3(round->design);
  const double change = other.volume_m3 / now_m3 - 1.0;
  text += (text.empty() ? "" : "; ") + std::string("one panel a ring: ") +
          quantity::format_workshop(other.diameter_m, units) + " across, brim at " +
          quantity::format_workshop(other.height_m, units) + ", " +
          quantity::format(other.volume_m3, Dimension::volume, units) + " of filling (" + (change >= 0.0 ? "+" : "-") +
          percent(std::abs(change)) + ")";
  return text;
}

void other_sizes(Flow& flow, const Plan& plan) {
  const UnitSystem units = plan.site.units;
  Table table;
  table.size_pt = 9.0;
  table.row_padding_pt = 2.0;
  table.heading = "Other stock sizes";
  table.columns = {{.head = "Stock", .strong = true},         {.head = "Pieces of it", .align = Align::right},
                   {.head = "Waste", .align = Align::right},  {.head = "Cost", .align = Align::right},
                   {.head = "Change", .align = Align::right}, {.head = "What else changes"}};
  for (const MaterialCuts& material : plan.cutting) {
    if (material.others.empty()) continue;
    table.rows.push_back({{material.job.what}, RowKind::group});
    std::string used;
    for (std::size_t s = 0; s < material.job.stock.size(); ++s) {
      if (cut::pieces_of(material.cuts, s) > 0)
        used += (used.empty() ? "" : " and ") + stock_name(material.job.stock[s], units);
    }
    table.rows.push_back(
        {{used + ", as planned", std::to_string(material.cuts.pieces.size()), percent(material.cuts.waste_share),
          material.cuts.priced ? decimal(material.cuts.cost, 2) : "no price", "", ""}});
    for (const OtherSize& other : material.others) {
      const bool done = other.cuts.done();
      table.rows.push_back(
          {{stock_name(other.stock, units), done ? std::to_string(other.cuts.pieces.size()) : "none",
            done ? percent(other.cuts.waste_share) : "", done && other.cuts.priced ? decimal(other.cuts.cost, 2) : "",
            change_of_cost(material.cuts, other.cuts), effect_of(plan, other)}});
    }
  }
  if (table.rows.empty()) {
    flow.paragraph("No other sizes of stock are named for comparison; mark them with \"compare\" in the site file.",
                   style::note);
    return;
  }
  draw_table(flow, table);
}

void sums(Flow& flow, const Plan& plan) {
  const plan::PricedSum feedstocks = plan::sum_of(plan.feedstock_shopping);
  const std::string& currency = plan.site.currency;
  std::vector<std::pair<std::string, std::string>> facts{
      {"Materials and feedstocks of the first fill, " + plan::material_sum(plan).words(),
       money(plan.material_cost, currency)},
      {"of it feedstocks, " + feedstocks.words(), money(feedstocks.cost, currency)},
      {"Work of the first year", clock_time(plan.labour_hours) + ", " + money(plan.labour_cost, currency)}};
  if (plan.finished_m3.middle > 0.0) {
    const double first_year = plan.material_cost + plan.labour_cost;
    facts.emplace_back(
        "First year, on each " + quantity::typeset(plan.site.units == UnitSystem::us ? "yd3" : "m3") +
            " of finished compost",
        quantity::format(first_year / plan.finished_m3.middle, Dimension::money_per_volume, plan.site.units) + ", " +
            plan::material_sum(plan).words() + "; cages and lines last longer than a year");
  }
  draw_facts(flow, "Sums", facts, 9.5);
}

void work(Flow& flow, const Plan& plan) {
  std::vector<std::pair<std::string, std::string>> facts;
  for (const plan::LabourLine& line : plan.labour) {
    facts.emplace_back(line.what,
                       clock_time(line.hours) + (line.cost > 0.0 ? ", " + money(line.cost, plan.site.currency) : ""));
  }
  draw_facts(flow, "Work over the first year, all vessels", facts, 9.5);
}

}  // namespace

void cost_page(Flow& flow, const Plan& plan) {
  flow.start_sheet("Cost and sourcing", "prices of the site file; nothing is converted or rounded up for spare");
  material_table(flow, plan);
  other_sizes(flow, plan);
  sums(flow, plan);
  work(flow, plan);
}

}  // namespace stillheap::sheet
