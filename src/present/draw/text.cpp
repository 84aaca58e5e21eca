#include "present/draw/text.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace stillheap::sheet {
namespace {

// Open Sans comes with fonts-open-sans; DejaVu Sans is on every Debian and has all signs used here.
constexpr const char* families = "Open Sans,DejaVu Sans,sans-serif";

struct Unref {
  void operator()(PangoLayout* layout) const noexcept { g_object_unref(layout); }
  void operator()(PangoFontDescription* font) const noexcept { pango_font_description_free(font); }
  void operator()(cairo_font_options_t* options) const noexcept { cairo_font_options_destroy(options); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

// Hinting would make widths depend on the device; without it a blind run measures what the print will show.
void print_like(PangoContext* context) {
  const std::unique_ptr<cairo_font_options_t, Unref> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options.get());
  pango_cairo_context_set_resolution(context, 72.0);
  pango_context_set_round_glyph_positions(context, FALSE);
}

/// Without ligatures: "fill" is found when a reader searches for it, and copied as it is spelt.
void keep_letters(PangoLayout* layout) {
  PangoAttrList* const list = pango_attr_list_new();
  pango_attr_list_insert(list, pango_attr_font_features_new("liga=0, clig=0"));
  pango_layout_set_attributes(layout, list);
  pango_attr_list_unref(list);
}

PangoAlignment to_pango(Align align) {
  if (align == Align::middle) return PANGO_ALIGN_CENTER;
  return align == Align::right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
}

Layout lay_out(const Canvas& canvas, std::string_view text, const Style& style, double width_pt) {
  Layout layout(pango_cairo_create_layout(canvas.cairo()));
  print_like(pango_layout_get_context(layout.get()));
  const std::unique_ptr<PangoFontDescription, Unref> font(pango_font_description_new());
  pango_font_description_set_family_static(font.get(), families);
  pango_font_description_set_absolute_size(font.get(), style.size_pt * PANGO_SCALE);
  pango_font_description_set_weight(font.get(),
                                    style.weight == Weight::strong ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  if (style.slanted) pango_font_description_set_style(font.get(), PANGO_STYLE_ITALIC);
  pango_layout_set_font_description(layout.get(), font.get());
  keep_letters(layout.get());
  if (width_pt > 0.0) {
    pango_layout_set_width(layout.get(), static_cast<int>(std::ceil(width_pt * PANGO_SCALE)));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  pango_layout_set_alignment(layout.get(), to_pango(style.align));
  const std::string set = typeset(text);
  pango_layout_set_text(layout.get(), set.c_str(), static_cast<int>(set.size()));
  return layout;
}

struct Extents {
  Box ink, logical;
};

Extents extents(PangoLayout* layout) {
  PangoRectangle ink_box;
  PangoRectangle logical;
  pango_layout_get_extents(layout, &ink_box, &logical);
  const auto box = [](const PangoRectangle& from) {
    return Box{points(from.x), points(from.y), points(from.width), points(from.height)};
  };
  return {box(ink_box), box(logical)};
}

void show(Canvas& canvas, PangoLayout* layout, Spot at, Colour colour) {
  cairo_set_source_rgb(canvas.cairo(), colour.red, colour.green, colour.blue);
  cairo_move_to(canvas.cairo(), at.x, at.y);
  pango_cairo_show_layout(canvas.cairo(), layout);
}

}  // namespace

Size measure(Canvas& canvas, std::string_view text, const Style& style, double width_pt) {
  const Layout layout = lay_out(canvas, text, style, width_pt);
  const Box box = extents(layout.get()).logical;
  return {box.width, box.height};
}

double longest_word_pt(Canvas& canvas, std::string_view text, const Style& style) {
  double longest = 0.0;
  const std::string set = typeset(text);
  std::size_t start = 0;
  while (start < set.size()) {
    const std::size_t end = std::min(set.find_first_of(" \n", start), set.size());
    if (end > start) {
      longest = std::max(longest, measure(canvas, std::string_view(set).substr(start, end - start), style).width);
    }
    start = end + 1;
  }
  return longest;
}

namespace {

Box draw_layout(Canvas& canvas, PangoLayout* layout, Spot top_left, std::string_view text, const Style& style,
                double width_pt, bool backed) {
  const Extents size = extents(layout);
  show(canvas, layout, top_left, style.colour);
  if (size.ink.width > 0.0) {
    canvas.remember({top_left.x + size.ink.x, top_left.y + size.ink.y, size.ink.width, size.ink.height},
                    std::string(text), style.size_pt, backed);
  }
  return {top_left.x, top_left.y, width_pt > 0.0 ? width_pt : size.logical.width, size.logical.height};
}

}  // namespace

Box draw_text(Canvas& canvas, Spot top_left, std::string_view text, const Style& style, double width_pt) {
  return draw_layout(canvas, lay_out(canvas, text, style, width_pt).get(), top_left, text, style, width_pt, false);
}

Box draw_line_of_text(Canvas& canvas, Spot top_left, std::string_view text, const Style& style, double width_pt) {
  const Layout layout = lay_out(canvas, text, style, width_pt);
  pango_layout_set_height(layout.get(), -1);  // lines a paragraph: one
  pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
  return draw_layout(canvas, layout.get(), top_left, text, style, width_pt, false);
}

Box draw_label(Canvas& canvas, Spot at, std::string_view text, const Style& style, Across across, Down down,
               bool backed) {
  const Size size = measure(canvas, text, style);
  Spot corner = at;
  if (across != Across::left) corner.x -= across == Across::middle ? size.width / 2.0 : size.width;
  if (down != Down::top) corner.y -= down == Down::middle ? size.height / 2.0 : size.height;
  if (backed) {
    fill(canvas, {corner.x - 1.5, corner.y + 0.1 * size.height, size.width + 3.0, 0.8 * size.height}, paper_white);
  }
  return draw_layout(canvas, lay_out(canvas, text, style, 0.0).get(), corner, text, style, 0.0, backed);
}

Box draw_turned(Canvas& canvas, Spot centre, std::string_view text, const Style& style, double angle_rad, bool backed) {
  const Layout layout = lay_out(canvas, text, style, 0.0);
  const Extents size = extents(layout.get());
  const double half_width = size.logical.width / 2.0;
  const double half_height = size.logical.height / 2.0;
  cairo_save(canvas.cairo());
  cairo_translate(canvas.cairo(), centre.x, centre.y);
  cairo_rotate(canvas.cairo(), angle_rad);
  if (backed)
    fill(canvas, {-half_width - 1.5, -0.8 * half_height, 2.0 * half_width + 3.0, 1.6 * half_height}, paper_white);
  show(canvas, layout.get(), {-half_width, -half_height}, style.colour);
  cairo_restore(canvas.cairo());
  const double c = std::abs(std::cos(angle_rad));
  const double s = std::abs(std::sin(angle_rad));
  const double wide = size.ink.width * c + size.ink.height * s;
  const double tall = size.ink.width * s + size.ink.height * c;
  const Box box{centre.x - wide / 2.0, centre.y - tall / 2.0, wide, tall};
  canvas.remember(box, std::string(text), style.size_pt, backed);
  return box;
}

}  // namespace stillheap::sheet
