#include <algorithm>
#include <cctype>

#include "present/draw/table.hpp"
#include "present/sheet/cut_drawing.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using plan::MaterialCuts;
using plan::Plan;

std::string proof_words(const cut::JobCuts& cuts) {
  if (cuts.gap_share <= 0.0) return "no cutting of this kind takes less";
  return "at best " + percent(cuts.gap_share, 1) + " less would do";
}

std::string title_of(const MaterialCuts& material, UnitSystem units) {
  std::string title = material.job.what;
  title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
  if (material.job.key != "slat") return title;
  return title + ", " + quantity::format(material.job.parts.front().width_m, Dimension::length, units) + " wide";
}

std::string scale_words(const MaterialCuts& material, double denominator) {
  const bool across = material.job.flat || material.job.key == "mesh";
  return " Drawn 1 : " + decimal(denominator, 0) + (across ? "." : " along, not across.");
}

std::string summary_of(const MaterialCuts& material, const Plan& plan) {
  std::string text;
  for (std::size_t s = 0; s < material.job.stock.size(); ++s) {
    const int count = cut::pieces_of(material.cuts, s);
    if (count == 0) continue;
    text += (text.empty() ? "" : " and ") + std::to_string(count) + " of " +
            stock_size(material.job.stock[s], plan.site.units);
  }
  text += "; waste " + percent(material.cuts.waste_share) + "; " + proof_words(material.cuts) + ".";
  return text + (material.cuts.note.empty() ? "" : " " + material.cuts.note);
}

void part_table(Flow& flow, const MaterialCuts& material, const Plan& plan) {
  Table table;
  table.size_pt = 9.5;
  table.row_padding_pt = 2.0;
  table.columns = {{.head = "", .fixed_pt = 14.0, .paint = paint_tick_box},
                   {.head = "Part", .strong = true},
                   {.head = "What for"},
                   {.head = "Pieces", .align = Align::right, .strong = true},
                   {.head = "Cut to", .align = Align::right, .strong = true}};
  for (std::size_t i = 0; i < material.cuts.parts.size(); ++i) {
    const cut::Part& part = material.cuts.parts[i];
    std::string size = quantity::format_workshop(part.length_m, plan.site.units);
    if (part.width_m > 0.0 && (material.job.flat || material.job.key == "mesh"))
      size += " × " + quantity::format_workshop(part.width_m, plan.site.units);
    table.rows.push_back({{"", part_letter(i), part.what, std::to_string(part.count), size}});
  }
  table.heading = title_of(material, plan.site.units);
  draw_table(flow, table);
}

/// Table, its sentence and the first drawing, where there is one: they stay on one page.
double together_pt(const Flow& flow, const MaterialCuts& material, bool drawn) {
  constexpr double head_pt = 46.0;
  constexpr double row_pt = 18.0;
  constexpr double sentence_pt = 32.0;
  const double words_pt = head_pt + row_pt * static_cast<double>(material.cuts.parts.size()) + sentence_pt;
  return drawn ? words_pt + first_cut_pt(material, cut_scale(material, flow.width())) : words_pt;
}

/// Pieces cut from what the site file has no stock of.
std::string without_stock(const Plan& plan) {
  std::string pieces;
  std::vector<std::string> told;
  for (const plan::PricedPiece& line : plan.shopping) {
    if (line.stock || line.piece.length_m <= 0.0) continue;
    if (std::find(told.begin(), told.end(), line.piece.what) != told.end()) continue;
    told.push_back(line.piece.what);
    pieces += (pieces.empty() ? "" : "; ") + line.piece.what;
  }
  return pieces.empty() ? ""
                        : "Cut to the sizes on the shopping list, since the site file names no stock: " + pieces + ".";
}

}  // namespace

void cut_page(Flow& flow, const Plan& plan) {
  flow.start_sheet("Cut list", "all vessels together, so that they share panels, rolls, boards and pipes");
  flow.caution_box(
      "When cutting",
      {"Mesh springs and its ends are sharp, a saw throws chips: eye protection, gloves off at the saw and "
       "on at the mesh, the piece clamped, nobody beside the cut."},
      10.0);
  for (const MaterialCuts& material : plan.cutting) {
    const std::string words = material.cuts.done() ? cuts_in_words(material, plan.site.units) : "";
    if (material.cuts.done()) flow.need(together_pt(flow, material, words.empty()));
    part_table(flow, material, plan);
    if (!material.cuts.done()) {
      flow.paragraph(material.cuts.note);
      continue;
    }
    if (!words.empty()) {
      flow.paragraph(summary_of(material, plan) + " " + words);
      continue;
    }
    const double denominator = cut_scale(material, flow.width());
    flow.paragraph(summary_of(material, plan) + scale_words(material, denominator));
    draw_cuts(flow, material, denominator, plan.site.units);
    flow.space(4.0);
  }
  if (const std::string words = without_stock(plan); !words.empty()) flow.paragraph(words);
  flow.paragraph(
      "Cut sizes are to the nearest " + std::string(plan.site.units == UnitSystem::us ? "1/16 in" : "1 mm") +
          ", off by half of that at most; saw cuts are counted. Measure the stock before the first cut. Lengths are "
          "chosen "
          "by an integer programme over all ways to fill a length; cloth is cut across, along, and across again.",
      style::note);
}

}  // namespace stillheap::sheet
