#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "present/draw/text.hpp"

namespace stillheap::sheet {

/// What stands at the foot of every page.
struct Imprint {
  std::string site;
  std::string occasion;  ///< "first fill 3 April 2026"
  int pages = 0;         ///< of the whole pack; 0 while they are being counted
};

/// A sheet's title and the page it starts on, for the PDF's outline.
struct SheetStart {
  std::string title;
  int page = 1;
};

/// Fills pages from top to bottom. Anything drawn asks for room first, so nothing is cut by the page's end;
/// a sheet that goes on over the page repeats its title.
class Flow {
 public:
  Flow(Canvas& canvas, Imprint imprint);

  /// Begins a sheet on a page of its own.
  void start_sheet(const std::string& title, const std::string& subtitle);
  /// Ends the last page.
  void close();

  [[nodiscard]] Canvas& canvas() noexcept { return *canvas_; }
  [[nodiscard]] double left() const noexcept;
  [[nodiscard]] double width() const noexcept;
  [[nodiscard]] double y() const noexcept { return y_; }
  [[nodiscard]] double room() const noexcept;
  /// Goes to a new page if less than `height_pt` is left; true when it did.
  bool need(double height_pt);
  void space(double height_pt) noexcept { y_ += height_pt; }
  /// The next box of the full width and this height.
  Box take(double height_pt);

  /// Height a heading takes where the flow stands.
  [[nodiscard]] double heading_height(std::string_view text);
  /// A heading that stays with `keep_pt` of what follows.
  void heading(std::string_view text, double keep_pt = 48.0);
  void paragraph(std::string_view text, const Style& style = style::body);
  /// Sentences behind a bar in the accent colour, each with a small triangle. Kept whole when `whole` and it takes
  /// less than half a page; else it splits between sentences.
  void caution_box(std::string_view title, const std::vector<std::string>& sentences, double size_pt = 10.0,
                   bool whole = true);

  [[nodiscard]] const std::vector<SheetStart>& sheets() const noexcept { return sheets_; }

 private:
  void head(const std::string& title, const std::string& subtitle, bool continued);
  void foot();

  Canvas* canvas_;
  Imprint imprint_;
  double y_ = 0.0;
  double content_top_ = 0.0;  ///< of this page
  bool open_ = false;
  std::string title_, subtitle_;
  std::vector<SheetStart> sheets_;
};

}  // namespace stillheap::sheet
