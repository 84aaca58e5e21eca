#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "present/draw/text.hpp"

namespace stillheap::sheet {

/// A sheet's title and the page it starts on, for the PDF's outline and the contents.
struct SheetStart {
  std::string title;  ///< with its subtitle
  int page = 1;
  std::string head{};  ///< the title alone
  bool operator==(const SheetStart&) const = default;
};

/// What stands at the foot of every page, and what an earlier run over the same sheets has found.
struct Imprint {
  std::string site;
  std::string occasion;                ///< "first fill 3 April 2026"
  int pages = 0;                       ///< of the whole pack; 0 while they are being counted
  std::vector<SheetStart> contents{};  ///< empty while the sheets are being counted
};

/// How far down a page its content reaches, 0 to 1 of the room between head and foot, and whether it holds a drawing,
/// which keeps its own scale.
struct PageUse {
  double share = 0.0;
  bool drawing = false;
};

/// Fills pages from top to bottom. Anything drawn asks for room first, so nothing is cut by the page's end;
/// a sheet that goes on over the page repeats its title.
class Flow {
 public:
  using Draw = std::function<void(Flow&)>;

  Flow(Canvas& canvas, Imprint imprint);

  /// Begins a sheet: on a page of its own, or below what stands on the page inside share_page and run_on.
  void start_sheet(const std::string& title, const std::string& subtitle);
  /// Ends the last page.
  void close();

  /// Draws one sheet or more, with less white between their lines where that saves a page.
  void fit(const Draw& draw);
  /// The same below what stands on the page when all of it fits there, so that no short sheet has a page to itself.
  void share_page(const Draw& draw);
  /// A list that may go on over the page: it begins on this one when at least `least_pt` is left.
  void run_on(const Draw& draw, double least_pt);
  /// Height of what `draw` puts on an endless page, so that a drawing can take what its words leave.
  [[nodiscard]] double height_of(const Draw& draw) const;
  /// Says that the page holds a drawing.
  void holds_drawing() noexcept { drawing_ = true; }
  /// White between lines, 1 unless fit() has less.
  [[nodiscard]] double white() const noexcept { return white_; }

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
  [[nodiscard]] const std::vector<PageUse>& page_uses() const noexcept { return page_uses_; }
  [[nodiscard]] const Imprint& imprint() const noexcept { return imprint_; }

 private:
  void head(const std::string& title, const std::string& subtitle, bool continued);
  void draw_title(const std::string& title, const std::string& subtitle, double size_pt);
  void head_below(const std::string& title, const std::string& subtitle);
  void foot();
  void begin_sheet_tag();
  void end_sheet_tag();
  /// What a drawing would take: pages, and how full the last one would be.
  struct Trial {
    int pages = 1;
    double last_share = 0.0;
  };
  [[nodiscard]] Trial try_out(const Draw& draw, double white, bool below) const;
  [[nodiscard]] double share() const noexcept;
  [[nodiscard]] double best_white(const Draw& draw) const;
  void draw_with(const Draw& draw, double white, bool below);

  Canvas* canvas_;
  Imprint imprint_;
  double y_ = 0.0;
  double content_top_ = 0.0;  ///< of this page
  double white_ = 1.0;
  bool open_ = false;
  bool in_sheet_ = false;  ///< its tag is open
  bool below_ = false;     ///< the next sheet begins below what stands on the page
  bool drawing_ = false;   ///< on this page
  std::string title_, subtitle_;
  std::vector<std::string> on_page_;  ///< titles, for the foot
  std::vector<SheetStart> sheets_;
  std::vector<PageUse> page_uses_;
};

}  // namespace stillheap::sheet
