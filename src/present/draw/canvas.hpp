#pragma once
#include <cairo.h>

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/geometry.hpp"
#include "core/quantity/quantity.hpp"
#include "present/draw/colour.hpp"

namespace stillheap::sheet {

/// A rectangle of the page in points (1/72 in), y downwards.
struct Box {
  double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
  [[nodiscard]] double right() const noexcept { return x + width; }
  [[nodiscard]] double bottom() const noexcept { return y + height; }
  [[nodiscard]] double middle_x() const noexcept { return x + width / 2.0; }
  [[nodiscard]] double middle_y() const noexcept { return y + height / 2.0; }
};

/// True when the two share more than `slack_pt` in both directions.
[[nodiscard]] bool overlap(const Box& a, const Box& b, double slack_pt = 0.0) noexcept;
/// True when `inner` lies within `outer`.
[[nodiscard]] bool within(const Box& inner, const Box& outer, double slack_pt = 0.0) noexcept;
/// The box made smaller by so much on every side.
[[nodiscard]] Box shrink(const Box& box, double by_pt) noexcept;

/// The ink of one text that was drawn, so that tests can prove that nothing overlaps, is crossed or leaves the page.
struct PlacedText {
  int page = 1;
  Box ink;
  std::string text;
  double size_pt = 0.0;
  bool backed = false;  ///< on a ground of its own that hides what was drawn before
  bool figure = false;  ///< part of a drawing
};

/// A point of the page.
struct Spot {
  double x = 0.0, y = 0.0;
};

/// A straight piece of a line in a figure, for the same proof.
struct PlacedLine {
  int page = 1;
  Spot from, to;
  std::size_t texts_before = 0;  ///< how many texts stood when it was drawn
};

struct Paper {
  double width_pt = 0.0, height_pt = 0.0;
  std::string name;
};

/// A4 for metric, Letter for US customary.
[[nodiscard]] Paper paper_for(UnitSystem units);

struct Pen {
  Colour colour = ink;
  double width_pt = 0.7;
  std::vector<double> dash{};
};

/// A cairo surface with its context: owns both, counts pages and remembers where text was placed.
/// Every constructor function throws RunError when the surface or the file cannot be made.
class Canvas {
 public:
  [[nodiscard]] static Canvas pdf(const std::filesystem::path& file, const Paper& paper);
  [[nodiscard]] static Canvas svg(const std::filesystem::path& file, const Paper& paper);
  /// Drawn at `scale` pixels a point; written by finish().
  [[nodiscard]] static Canvas png(const std::filesystem::path& file, const Paper& paper, double scale);
  /// Goes nowhere; for counting pages and checking boxes.
  [[nodiscard]] static Canvas blind(const Paper& paper);

  [[nodiscard]] cairo_t* cairo() const noexcept { return cairo_.get(); }
  [[nodiscard]] cairo_surface_t* surface() const noexcept { return surface_.get(); }
  [[nodiscard]] const Paper& paper() const noexcept { return paper_; }
  [[nodiscard]] int page() const noexcept { return page_; }
  [[nodiscard]] const std::vector<PlacedText>& texts() const noexcept { return texts_; }

  /// Straight lines inside figures.
  [[nodiscard]] const std::vector<PlacedLine>& lines() const noexcept { return lines_; }

  void remember(const Box& box, std::string text, double size_pt, bool backed);
  void remember_line(std::span<const Spot> spots, bool closed);

  /// Opens and closes a tag of the document's structure (ISO 32000-1, 14.8.4: "H1", "P", "Table" ...), for readers that
  /// read aloud; a PDF takes it. Tags nest. One that is open at a page's end goes on on the next page.
  void begin_tag(const char* name);
  void end_tag();
  /// Leaves what follows, up to the next page, out of the structure: the page's foot.
  void pause_tags();
  /// Ends this page and starts the next.
  void next_page();
  /// Closes the surface. Throws RunError when it or the file failed on the way.
  void finish();

 private:
  enum class Kind { direct, svg, png, pdf };
  Canvas(cairo_surface_t* surface, Paper paper, std::filesystem::path file, Kind kind);

  struct Free {
    void operator()(cairo_surface_t* surface) const noexcept { cairo_surface_destroy(surface); }
    void operator()(cairo_t* context) const noexcept { cairo_destroy(context); }
  };
  Paper paper_;
  std::filesystem::path file_;
  Kind kind_ = Kind::direct;
  std::unique_ptr<std::string> svg_;  ///< what cairo wrote so far; on the heap, since cairo holds its address
  std::unique_ptr<cairo_surface_t, Free> surface_;
  std::unique_ptr<cairo_t, Free> cairo_;
  int page_ = 1;
  std::vector<PlacedText> texts_;
  std::vector<PlacedLine> lines_;
  std::vector<const char*> tags_;  ///< open ones, outermost first
  bool tags_paused_ = false;
};

/// A tag that is open while it lives.
class Tag {
 public:
  Tag(Canvas& canvas, const char* name) : canvas_(canvas) { canvas_.begin_tag(name); }
  ~Tag() { canvas_.end_tag(); }
  Tag(const Tag&) = delete;
  Tag& operator=(const Tag&) = delete;

 private:
  Canvas& canvas_;
};

void line(Canvas& canvas, Spot from, Spot to, const Pen& pen = {});
void polyline(Canvas& canvas, std::span<const Spot> spots, const Pen& pen = {}, bool closed = false);
void fill_polygon(Canvas& canvas, std::span<const Spot> spots, Colour colour, double opacity = 1.0);
void frame(Canvas& canvas, const Box& box, const Pen& pen = {});
void fill(Canvas& canvas, const Box& box, Colour colour);
void circle(Canvas& canvas, Spot centre, double radius_pt, const Pen& pen = {});
void disc(Canvas& canvas, Spot centre, double radius_pt, Colour colour);
/// Arc from one angle to a greater one, radians, anticlockwise as in the plan (y upwards).
void arc(Canvas& canvas, Spot centre, double radius_pt, double from_rad, double to_rad, const Pen& pen = {});
/// A filled arrowhead whose tip is at `tip`, pointing along the angle (page angle, y downwards).
void arrowhead(Canvas& canvas, Spot tip, double angle_rad, double length_pt = 6.0, Colour colour = ink);

/// Numbers the surfaces and images that cairo names by a count over the whole process in the order they appear, so
/// that the same drawing gives the same text.
[[nodiscard]] std::string with_stable_ids(std::string_view svg);

/// Keeps drawing inside a box while it lives.
class Clip {
 public:
  Clip(Canvas& canvas, const Box& box);
  ~Clip();
  Clip(const Clip&) = delete;
  Clip& operator=(const Clip&) = delete;

 private:
  cairo_t* cairo_;
};

}  // namespace stillheap::sheet
