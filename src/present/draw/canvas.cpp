#include "present/draw/canvas.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string_view>
#include <utility>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "present/draw/pdf_language.hpp"

namespace stillheap::sheet {
namespace {

void use_pen(cairo_t* cairo, const Pen& pen) {
  cairo_set_source_rgb(cairo, pen.colour.red, pen.colour.green, pen.colour.blue);
  cairo_set_line_width(cairo, pen.width_pt);
  cairo_set_dash(cairo, pen.dash.data(), static_cast<int>(pen.dash.size()), 0.0);
}

void trace(cairo_t* cairo, std::span<const Spot> spots) {
  cairo_new_path(cairo);
  for (const Spot& spot : spots) cairo_line_to(cairo, spot.x, spot.y);
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// Cairo wrote the file itself; its text is read again.
bool tell_language(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string pdf{std::istreambuf_iterator<char>(in), {}};
  if (in.bad() || pdf.empty()) return false;
  std::ofstream out(file, std::ios::binary);
  out << with_language(pdf, "en");
  out.close();
  return !out.fail();
}

bool write_text(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  return !out.fail();
}

}  // namespace

bool overlap(const Box& a, const Box& b, double slack_pt) noexcept {
  return std::min(a.right(), b.right()) - std::max(a.x, b.x) > slack_pt &&
         std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y) > slack_pt;
}

bool within(const Box& inner, const Box& outer, double slack_pt) noexcept {
  return inner.x >= outer.x - slack_pt && inner.y >= outer.y - slack_pt && inner.right() <= outer.right() + slack_pt &&
         inner.bottom() <= outer.bottom() + slack_pt;
}

Box shrink(const Box& box, double by_pt) noexcept {
  return {box.x + by_pt, box.y + by_pt, box.width - 2.0 * by_pt, box.height - 2.0 * by_pt};
}

Paper paper_for(UnitSystem units) {
  // ISO 216: 210 mm x 297 mm; US Letter: 8.5 in x 11 in. One point is 1/72 in.
  if (units == UnitSystem::us) return {612.0, 792.0, "Letter"};
  return {210.0 / 25.4 * 72.0, 297.0 / 25.4 * 72.0, "A4"};
}

Canvas::Canvas(cairo_surface_t* surface, Paper paper, std::filesystem::path file, Kind kind)
    : paper_(std::move(paper)), file_(std::move(file)), kind_(kind), surface_(surface), cairo_(cairo_create(surface)) {
  if (cairo_status(cairo_.get()) != CAIRO_STATUS_SUCCESS) {
    throw RunError(file_.string(), "the drawing cannot be opened for writing",
                   "check that the folder exists and can be written");
  }
  cairo_set_line_cap(cairo_.get(), CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_.get(), CAIRO_LINE_JOIN_ROUND);
}

Canvas Canvas::pdf(const std::filesystem::path& file, const Paper& paper) {
  cairo_surface_t* surface = cairo_pdf_surface_create(file.string().c_str(), paper.width_pt, paper.height_pt);
  return {surface, paper, file, Kind::pdf};
}

Canvas Canvas::svg(const std::filesystem::path& file, const Paper& paper) {
  auto text = std::make_unique<std::string>();
  cairo_surface_t* surface = cairo_svg_surface_create_for_stream(&append, text.get(), paper.width_pt, paper.height_pt);
  Canvas canvas(surface, paper, file, Kind::svg);
  canvas.svg_ = std::move(text);
  return canvas;
}

Canvas Canvas::png(const std::filesystem::path& file, const Paper& paper, double scale) {
  cairo_surface_t* surface =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(paper.width_pt * scale)),
                                 static_cast<int>(std::lround(paper.height_pt * scale)));
  Canvas canvas(surface, paper, file, Kind::png);
  cairo_scale(canvas.cairo(), scale, scale);
  fill(canvas, {0.0, 0.0, paper.width_pt, paper.height_pt}, sheet::paper_white);
  return canvas;
}

Canvas Canvas::blind(const Paper& paper) {
  // A recording measures text as a PDF does, and writes nothing.
  const cairo_rectangle_t extents{0.0, 0.0, paper.width_pt, paper.height_pt};
  return {cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents), paper, {}, Kind::direct};
}

void Canvas::next_page() {
  pause_tags();
  cairo_show_page(cairo_.get());
  ++page_;
  tags_paused_ = false;
  if (kind_ != Kind::pdf) return;
  for (const char* tag : tags_) cairo_tag_begin(cairo_.get(), tag, "");
}

void Canvas::begin_tag(const char* name) {
  tags_.push_back(name);
  if (kind_ == Kind::pdf && !tags_paused_) cairo_tag_begin(cairo_.get(), name, "");
}

void Canvas::end_tag() {
  if (tags_.empty()) return;  // a trial on a canvas of its own ends what it did not begin
  if (kind_ == Kind::pdf && !tags_paused_) cairo_tag_end(cairo_.get(), tags_.back());
  tags_.pop_back();
}

void Canvas::pause_tags() {
  if (std::exchange(tags_paused_, true) || kind_ != Kind::pdf) return;
  for (std::size_t i = tags_.size(); i-- > 0;) cairo_tag_end(cairo_.get(), tags_[i]);
}

namespace {

bool in_figure(const std::vector<const char*>& tags) {
  return std::any_of(tags.begin(), tags.end(), [](const char* tag) { return std::string_view(tag) == "Figure"; });
}

}  // namespace

void Canvas::remember(const Box& box, std::string text, double size_pt, bool backed) {
  texts_.push_back({page_, box, std::move(text), size_pt, backed, in_figure(tags_)});
}

void Canvas::remember_line(std::span<const Spot> spots, bool closed) {
  if (!in_figure(tags_)) return;
  for (std::size_t i = 0; i + 1 < spots.size(); ++i) lines_.push_back({page_, spots[i], spots[i + 1], texts_.size()});
  if (closed && spots.size() > 2) lines_.push_back({page_, spots.back(), spots.front(), texts_.size()});
}

void Canvas::finish() {
  cairo_status_t status = cairo_status(cairo_.get());
  cairo_surface_flush(surface_.get());
  if (status == CAIRO_STATUS_SUCCESS && kind_ == Kind::png) {
    status = cairo_surface_write_to_png(surface_.get(), file_.string().c_str());
  }
  cairo_surface_finish(surface_.get());
  if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface_.get());
  if (status == CAIRO_STATUS_SUCCESS && kind_ == Kind::svg && !write_text(file_, with_stable_ids(*svg_))) {
    status = CAIRO_STATUS_WRITE_ERROR;
  }
  if (status == CAIRO_STATUS_SUCCESS && kind_ == Kind::pdf && !tell_language(file_)) status = CAIRO_STATUS_WRITE_ERROR;
  if (status != CAIRO_STATUS_SUCCESS) {
    throw RunError(file_.string(), std::string("the drawing could not be written: ") + cairo_status_to_string(status),
                   "check that the folder can be written and the disk has room");
  }
}

void line(Canvas& canvas, Spot from, Spot to, const Pen& pen) {
  const Spot both[] = {from, to};
  polyline(canvas, both, pen);
}

void polyline(Canvas& canvas, std::span<const Spot> spots, const Pen& pen, bool closed) {
  trace(canvas.cairo(), spots);
  if (closed) cairo_close_path(canvas.cairo());
  use_pen(canvas.cairo(), pen);
  cairo_stroke(canvas.cairo());
  canvas.remember_line(spots, closed);
}

void fill_polygon(Canvas& canvas, std::span<const Spot> spots, Colour colour, double opacity) {
  trace(canvas.cairo(), spots);
  cairo_close_path(canvas.cairo());
  cairo_set_source_rgba(canvas.cairo(), colour.red, colour.green, colour.blue, opacity);
  cairo_fill(canvas.cairo());
}

void frame(Canvas& canvas, const Box& box, const Pen& pen) {
  use_pen(canvas.cairo(), pen);
  cairo_rectangle(canvas.cairo(), box.x, box.y, box.width, box.height);
  cairo_stroke(canvas.cairo());
  const Spot corners[] = {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
  canvas.remember_line(corners, true);
}

void fill(Canvas& canvas, const Box& box, Colour colour) {
  cairo_set_source_rgb(canvas.cairo(), colour.red, colour.green, colour.blue);
  cairo_rectangle(canvas.cairo(), box.x, box.y, box.width, box.height);
  cairo_fill(canvas.cairo());
}

void circle(Canvas& canvas, Spot centre, double radius_pt, const Pen& pen) {
  arc(canvas, centre, radius_pt, 0.0, 2.0 * constant::pi, pen);
}

void disc(Canvas& canvas, Spot centre, double radius_pt, Colour colour) {
  cairo_new_path(canvas.cairo());
  cairo_arc(canvas.cairo(), centre.x, centre.y, radius_pt, 0.0, 2.0 * constant::pi);
  cairo_set_source_rgb(canvas.cairo(), colour.red, colour.green, colour.blue);
  cairo_fill(canvas.cairo());
}

void arc(Canvas& canvas, Spot centre, double radius_pt, double from_rad, double to_rad, const Pen& pen) {
  use_pen(canvas.cairo(), pen);
  cairo_new_path(canvas.cairo());
  cairo_arc_negative(canvas.cairo(), centre.x, centre.y, radius_pt, -from_rad, -to_rad);
  cairo_stroke(canvas.cairo());
  std::array<Spot, 49> way;  // its chords are within 0.3 pt of an arc as wide as the page
  for (std::size_t i = 0; i < way.size(); ++i) {
    const double angle = std::lerp(from_rad, to_rad, static_cast<double>(i) / static_cast<double>(way.size() - 1));
    way[i] = {centre.x + radius_pt * std::cos(angle), centre.y - radius_pt * std::sin(angle)};
  }
  canvas.remember_line(way, false);
}

void arrowhead(Canvas& canvas, Spot tip, double angle_rad, double length_pt, Colour colour) {
  constexpr double half_opening_rad = 0.18;  // chosen: a slim head, as on workshop drawings
  const auto corner = [&](double turn) {
    const double way = angle_rad + constant::pi + turn;
    return Spot{tip.x + length_pt * std::cos(way), tip.y + length_pt * std::sin(way)};
  };
  const Spot head[] = {tip, corner(half_opening_rad), corner(-half_opening_rad)};
  fill_polygon(canvas, head, colour);
}

Clip::Clip(Canvas& canvas, const Box& box) : cairo_(canvas.cairo()) {
  cairo_save(cairo_);
  cairo_rectangle(cairo_, box.x, box.y, box.width, box.height);
  cairo_clip(cairo_);
}

Clip::~Clip() { cairo_restore(cairo_); }

}  // namespace stillheap::sheet
