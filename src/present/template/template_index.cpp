#include "present/template/template_index.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/quantity/workshop.hpp"
#include "present/draw/text.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double margin_pt = 40.0;

std::vector<std::string> steps(const TemplateDrawing& drawing, const Tiling& tiling) {
  const std::string overlap = quantity::format_workshop(tiling.window.overlap_m, drawing.units);
  const std::string bar = drawing.units == UnitSystem::us ? "4 in" : "100 mm";
  const std::string lines =
      "Snap two centre lines at right angles over the middle of the deck, and lay the template's centre lines on "
      "them. Check the diagonals: both must be alike.";
  const std::string circles =
      "Black circles are the outside of the forms. Prick every middle through the paper, check the chords with a "
      "tape, then drill or saw along the line; ease the edge until the form slides.";
  const std::string cutter =
      "Clamp the work, keep hands behind the cutter, and wear eye protection; a wide cutter can seize: use a drill "
      "with a side handle. Keep to the tool's own instructions.";
  return {"Print all pages at 100 % (\"actual size\"), without fitting or shrinking to the page.",
          "Hold a rule against both bars on this page: each must be " + bar +
              " long. If one is not, change the printer's setting; do not drill.",
          "Cut each page along its grey frame on the right and below. Lay it over its neighbours as the map shows; "
          "they share " +
              overlap + " and two rings with a cross. Ring on ring, tape.",
          lines,
          circles,
          "Base cloth: lay it centred, prick the same middles, cut a star inside each circle and fold the points down; "
          "the cloth reaches " +
              quantity::format_workshop(drawing.cloth_beyond_m, drawing.units) + " beyond the wall.",
          cutter};
}

void draw_map(Canvas& canvas, const TemplateDrawing& drawing, const Tiling& tiling, const Box& box) {
  const vessel::Frame& first = tiling.tiles.front().window;
  const vessel::Frame& last = tiling.tiles.back().window;
  const double wide = last.right_m - first.left_m;
  const double high = first.high_m - last.low_m;
  const double scale = std::min(box.width / wide, box.height / high);
  const Spot corner{box.x + 0.5 * (box.width - wide * scale), box.y};
  const auto spot = [&](Point p) {
    return Spot{corner.x + (p.x_m - first.left_m) * scale, corner.y + (first.high_m - p.y_m) * scale};
  };
  for (const Tile& one : tiling.tiles) {
    const Spot a = spot({one.window.left_m, one.window.high_m});
    const Spot b = spot({one.window.right_m, one.window.low_m});
    frame(canvas, {a.x, a.y, b.x - a.x, b.y - a.y}, {hair, 0.8});
  }
  for (const TemplateCircle& one : drawing.circles) {
    if (one.layer == TemplateLayer::hole) circle(canvas, spot(one.centre), one.radius_m * scale, {ink, 1.0});
  }
  for (const Tile& one : tiling.tiles) {
    const Spot at = spot({one.window.left_m, one.window.high_m});
    const double size = std::clamp(0.13 * tiling.window.width_m * scale, 6.0, 16.0);
    draw_text(canvas, {at.x + 0.4 * size, at.y + 0.2 * size}, tile_name(one.row, one.column),
              {size, Weight::strong, accent});
  }
}

}  // namespace

void draw_check_bar(Canvas& canvas, Spot at, UnitSystem units, bool upright) {
  const bool us = units == UnitSystem::us;
  const int parts = us ? 8 : 10;
  const double length = (us ? 4.0 * 0.0254 : 0.1) * points_a_metre;
  constexpr double thick = 7.0;
  for (int i = 0; i < parts; ++i) {
    const double from = length * i / parts;
    const Box piece = upright ? Box{at.x, at.y - from - length / parts, thick, length / parts}
                              : Box{at.x + from, at.y, length / parts, thick};
    if (i % 2 == 0) fill(canvas, piece, ink);
    frame(canvas, piece, {ink, 0.4});
  }
  const std::string words = std::string("this bar must measure ") + (us ? "4 in" : "100 mm");
  if (upright) {
    draw_turned(canvas, {at.x + thick + 9.0, at.y - 0.5 * length}, words, {9.0}, -0.5 * constant::pi);
  } else {
    draw_label(canvas, {at.x + length + 8.0, at.y + 0.5 * thick}, words, {9.0}, Across::left, Down::middle);
  }
}

void draw_index(Canvas& canvas, const TemplateDrawing& drawing, const Tiling& tiling) {
  const double width = canvas.paper().width_pt - 2.0 * margin_pt;
  double y = draw_text(canvas, {margin_pt, margin_pt}, "Drilling template", style::title, width).bottom();
  y = draw_text(canvas, {margin_pt, y},
                drawing.vessel + ": base and base cloth, " + std::to_string(tiling.tiles.size()) +
                    (tiling.tiles.size() == 1 ? " page" : " pages") + " of true scale on " + canvas.paper().name,
                {11.0, Weight::regular, soft}, width)
          .bottom() +
      8.0;
  const auto words = steps(drawing, tiling);
  for (std::size_t i = 0; i < words.size(); ++i) {
    draw_text(canvas, {margin_pt, y}, std::to_string(i + 1), {11.0, Weight::strong});
    y = draw_text(canvas, {margin_pt + 20.0, y}, words[i], {11.0}, width - 20.0).bottom() + 3.0;
  }
  y += 8.0;
  draw_check_bar(canvas, {margin_pt, y}, drawing.units, false);
  const double foot = canvas.paper().height_pt - margin_pt;
  draw_check_bar(canvas, {margin_pt, foot}, drawing.units, true);
  const std::string rounding =
      "Holes are drawn exactly; lengths written on the template are rounded to " +
      std::string(drawing.units == UnitSystem::us ? "1/16 in" : "1 mm") + ", by " +
      (drawing.units == UnitSystem::us ? decimal(drawing.worst_rounding_m / 0.0254, 3) + " in"
                                       : decimal(drawing.worst_rounding_m * 1000.0, 1) + " mm") +
      " at most.";
  const double note = draw_text(canvas, {margin_pt + 40.0, y + 16.0}, rounding, style::note, width - 40.0).bottom();
  draw_map(canvas, drawing, tiling, {margin_pt + 40.0, note + 12.0, width - 40.0, foot - note - 12.0});
}

}  // namespace stillheap::sheet
