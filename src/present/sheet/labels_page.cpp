#include "present/sheet/labels_page.hpp"

#include <cairo-pdf.h>

#include "core/base/error.hpp"
#include "present/draw/qr.hpp"
#include "present/draw/text.hpp"

namespace stillheap::sheet {
namespace {

constexpr double margin_pt = 36.0;         // chosen: what printers leave free
constexpr std::size_t columns = 2;         // chosen: a code of 5 cm is read from an arm's length through a wet pouch
constexpr std::size_t rows = 4;            // chosen
constexpr double pad_pt = 10.0;            // chosen: white inside the line that is cut along
constexpr double smallest_name_pt = 11.0;  // chosen

/// The largest size at which a name of any length stays within its room.
Style name_style(Canvas& canvas, const std::string& name, double width_pt, double height_pt) {
  Style style{24.0, Weight::strong};
  while (style.size_pt > smallest_name_pt && (measure(canvas, name, style, width_pt).height > height_pt ||
                                              longest_word_pt(canvas, name, style) > width_pt)) {
    style.size_pt -= 1.0;
  }
  return style;
}

}  // namespace

Box label_size(const Paper& paper) {
  return {0.0, 0.0, (paper.width_pt - 2.0 * margin_pt) / columns, (paper.height_pt - 2.0 * margin_pt) / rows};
}

void draw_vessel_label(Canvas& canvas, const Box& cell, const VesselLabel& label) {
  const auto modules = qr_modules(label.address);
  if (modules.empty()) throw InputError("labels", "have an address too long for a code", "use a shorter machine name");
  frame(canvas, cell, {hair, 0.5, {3.0, 3.0}});
  const Box inside = shrink(cell, pad_pt);
  const double side = inside.height - 14.0;
  draw_qr(canvas, {inside.x, inside.y, side, side}, modules);
  const double x = inside.x + side + 8.0;
  const double width = inside.right() - x;
  const Clip clip(canvas, inside);
  const Style style = name_style(canvas, label.name, width, 0.55 * side);
  const Box name = draw_text(canvas, {x, inside.y + 8.0}, label.name, style, width);
  draw_text(canvas, {x, name.bottom() + 8.0}, "Scan to note a reading.", style::body, width);
  draw_line_of_text(canvas, {inside.x, inside.bottom() - 11.0}, label.address, {7.0, Weight::regular, soft},
                    inside.width);
}

int write_labels(const std::vector<VesselLabel>& labels, const std::filesystem::path& file, UnitSystem units) {
  if (labels.empty())
    throw InputError("labels", "are asked for, but no vessel is in the records", "add the vessels first");
  const Paper paper = paper_for(units);
  Canvas canvas = Canvas::pdf(file, paper);
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_TITLE, "Labels of the vessels");
  cairo_pdf_surface_set_metadata(canvas.surface(), CAIRO_PDF_METADATA_CREATOR, "stillheap");
  const Box size = label_size(paper);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const std::size_t place = i % (columns * rows);
    if (i > 0 && place == 0) canvas.next_page();
    const auto [row, column] = std::pair{place / columns, place % columns};
    draw_vessel_label(canvas,
                      {margin_pt + static_cast<double>(column) * size.width,
                       margin_pt + static_cast<double>(row) * size.height, size.width, size.height},
                      labels[i]);
  }
  canvas.finish();
  return canvas.page();
}

}  // namespace stillheap::sheet
