#include <cairo-pdf.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "present/draw/text.hpp"
#include "present/template/template_drawing.hpp"
#include "present/template/template_index.hpp"

namespace stillheap::sheet {
namespace {

// Chosen, mm: what home printers leave free, and room for the words above and the scale bar below.
constexpr double side_mm = 12.0;
constexpr double top_mm = 24.0;
constexpr double bottom_mm = 24.0;
constexpr double mark_radius_mm = 2.5;

constexpr Colour guide{0.58, 0.58, 0.58};  ///< lines that nobody cuts along

double pt(double mm) { return mm / 25.4 * 72.0; }

Pen pen_of(TemplateLayer layer) {
  switch (layer) {
    case TemplateLayer::hole:
      return {ink, 1.0};
    case TemplateLayer::centre:
      return {guide, 0.7, {14.0, 3.0, 3.0, 3.0}};
    case TemplateLayer::ring:
      return {guide, 0.5, {8.0, 3.0}};
    case TemplateLayer::wall:
      return {guide, 2.0};
    default:
      return {hair, 0.6};
  }
}

Spot on_page(Spot origin, Point p) { return {origin.x + p.x_m * points_a_metre, origin.y - p.y_m * points_a_metre}; }

bool inside(const vessel::Frame& frame, Point p) {
  return p.x_m >= frame.left_m && p.x_m <= frame.right_m && p.y_m >= frame.low_m && p.y_m <= frame.high_m;
}

void date_it(Canvas& canvas, const TemplateDrawing& drawing, const std::string& date) {
  // The start date, not the clock: the same plan must give the same file.
  const std::string stamp = date + "T00:00:00Z";
  const std::string title = drawing.vessel + ": drilling template";
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_CREATE_DATE, stamp.c_str());
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_MOD_DATE, stamp.c_str());
}

/// A ring with a cross: pages are laid over each other until the two rings are one.
void draw_mark(Canvas& canvas, Spot at) {
  const double reach = pt(mark_radius_mm);
  circle(canvas, at, reach, {accent, 0.6});
  line(canvas, {at.x - 0.7 * reach, at.y}, {at.x + 0.7 * reach, at.y}, {accent, 0.4});
  line(canvas, {at.x, at.y - 0.7 * reach}, {at.x, at.y + 0.7 * reach}, {accent, 0.4});
}

void draw_tile(Canvas& canvas, const TemplateDrawing& drawing, const Tiling& tiling, const Tile& one) {
  const Spot corner{pt(side_mm), pt(top_mm)};
  const Box window{corner.x, corner.y, tiling.window.width_m * points_a_metre, tiling.window.height_m * points_a_metre};
  const Spot origin{corner.x - one.window.left_m * points_a_metre, corner.y + one.window.high_m * points_a_metre};
  {
    const Clip clip(canvas, window);
    draw_template(canvas, drawing, one.window, origin);
    for (const Point mark : overlap_marks(tiling, one)) draw_mark(canvas, on_page(origin, mark));
  }
  frame(canvas, window, {hair, 0.5});
  const std::string name = tile_name(one.row, one.column);
  draw_text(canvas, {window.x, window.y - 38.0}, name, {26.0, Weight::strong});
  const double beside = window.x + 64.0;
  draw_line_of_text(canvas, {beside, window.y - 36.0},
                    drawing.vessel + ": drilling template, page " + name + " of " + std::to_string(tiling.rows) +
                        " rows by " + std::to_string(tiling.columns),
                    {10.0, Weight::strong}, window.right() - beside);
  draw_line_of_text(canvas, {beside, window.y - 20.0},
                    "Print at 100 %, without fitting to the page. Lay this page over its neighbours, ring on ring.",
                    {9.0}, window.right() - beside);
  draw_check_bar(canvas, {window.x, window.bottom() + 14.0}, drawing.units, false);
}

}  // namespace

TileWindow window_of(const Paper& paper, UnitSystem units) {
  const double overlap_m = units == UnitSystem::us ? 0.0127 : 0.012;  // chosen: half an inch
  return {paper.width_pt / points_a_metre - 2.0 * side_mm / 1000.0,
          paper.height_pt / points_a_metre - (top_mm + bottom_mm) / 1000.0, overlap_m};
}

void draw_template(Canvas& canvas, const TemplateDrawing& drawing, const vessel::Frame& frame, Spot origin) {
  // What is cut along comes last and on top.
  for (const TemplateLayer layer : {TemplateLayer::slat, TemplateLayer::cloth, TemplateLayer::wall,
                                    TemplateLayer::centre, TemplateLayer::ring, TemplateLayer::hole}) {
    if (layer == TemplateLayer::hole) {
      for (const TemplateText& text : drawing.texts) {
        if (!inside(frame, text.at)) continue;
        draw_turned(canvas, on_page(origin, text.at), text.text, {text.height_m * points_a_metre}, -text.angle_rad,
                    true);
      }
    }
    for (const TemplateLine& one : drawing.lines) {
      if (one.layer == layer) line(canvas, on_page(origin, one.from), on_page(origin, one.to), pen_of(layer));
    }
    for (const TemplateCircle& one : drawing.circles) {
      if (one.layer == layer) circle(canvas, on_page(origin, one.centre), one.radius_m * points_a_metre, pen_of(layer));
    }
  }
}

int write_tiled_template(const TemplateDrawing& drawing, const Paper& paper, const std::string& date,
                         const std::filesystem::path& file) {
  const Tiling tiling = tile(drawing.holes, window_of(paper, drawing.units));
  Canvas canvas = Canvas::pdf(file, paper);
  date_it(canvas, drawing, date);
  draw_index(canvas, drawing, tiling);
  for (const Tile& one : tiling.tiles) {
    canvas.next_page();
    draw_tile(canvas, drawing, tiling, one);
  }
  canvas.finish();
  return canvas.page();
}

int write_large_template(const TemplateDrawing& drawing, const std::string& date, const std::filesystem::path& file) {
  const double head_pt = 64.0;
  const double foot_pt = 44.0;
  const double edge_pt = 24.0;
  const double width = drawing.whole.width_m() * points_a_metre;
  const double height = drawing.whole.height_m() * points_a_metre;
  Canvas canvas = Canvas::pdf(
      file, {std::max(width + 2.0 * edge_pt, 560.0), height + head_pt + foot_pt + 2.0 * edge_pt, "one large page"});
  date_it(canvas, drawing, date);
  draw_text(canvas, {edge_pt, edge_pt}, drawing.vessel + ": drilling template of base and base cloth",
            {22.0, Weight::strong});
  draw_line_of_text(
      canvas, {edge_pt, edge_pt + 34.0},
      "Print at 100 %, without fitting to the page, and measure the bar at the foot. Black: cut along it.", {12.0},
      canvas.paper().width_pt - 2.0 * edge_pt);
  const Spot corner{0.5 * (canvas.paper().width_pt - width), edge_pt + head_pt};
  const Spot origin{corner.x - drawing.whole.left_m * points_a_metre, corner.y + drawing.whole.high_m * points_a_metre};
  {
    const Clip clip(canvas, {corner.x, corner.y, width, height});
    draw_template(canvas, drawing, drawing.whole, origin);
  }
  draw_check_bar(canvas, {edge_pt, corner.y + height + 16.0}, drawing.units, false);
  canvas.finish();
  return canvas.page();
}

}  // namespace stillheap::sheet
