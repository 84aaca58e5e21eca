#include "present/draw/flow.hpp"

#include <algorithm>
#include <utility>

namespace stillheap::sheet {
namespace {

constexpr double margin_side_pt = 45.0;
constexpr double margin_top_pt = 30.0;
constexpr double margin_bottom_pt = 46.0;
constexpr double tab_width_pt = 7.0;
constexpr double heading_rise_pt = 7.0;  ///< above a heading inside a page
constexpr double paragraph_gap_pt = 4.0;
constexpr double whites[] = {1.0, 0.8, 0.6, 0.4};       // chosen: the shares of white that fit() tries to save a page,
constexpr double wide_whites[] = {1.3, 1.6, 2.0, 2.5};  // and to fill the last one
constexpr double half_full = 0.52;

}  // namespace

Flow::Flow(Canvas& canvas, Imprint imprint) : canvas_(&canvas), imprint_(std::move(imprint)) {}

double Flow::left() const noexcept { return margin_side_pt; }
double Flow::width() const noexcept { return canvas_->paper().width_pt - 2.0 * margin_side_pt; }
double Flow::room() const noexcept { return canvas_->paper().height_pt - margin_bottom_pt - y_; }

void Flow::start_sheet(const std::string& title, const std::string& subtitle) {
  const std::string name = subtitle.empty() ? title : title + ": " + subtitle;
  const std::string vessel = subtitle_;
  end_sheet_tag();
  title_ = title;
  subtitle_ = subtitle;
  if (open_ && below_) {
    sheets_.push_back({name, canvas_->page(), title});
    on_page_.push_back(title);
    begin_sheet_tag();
    return head_below(title, subtitle == vessel ? "" : subtitle);
  }
  if (open_) {
    foot();
    canvas_->next_page();
  }
  open_ = true;
  begin_sheet_tag();
  sheets_.push_back({name, canvas_->page(), title});
  head(title, subtitle, false);
}

void Flow::begin_sheet_tag() {
  canvas_->begin_tag("Sect");
  in_sheet_ = true;
}

void Flow::end_sheet_tag() {
  if (std::exchange(in_sheet_, false)) canvas_->end_tag();
}

void Flow::head(const std::string& title, const std::string& subtitle, bool continued) {
  y_ = margin_top_pt;
  draw_title(continued ? title + ", continued" : title, subtitle, continued ? 15.0 : style::title.size_pt);
  y_ += 4.0;
  line(*canvas_, {left(), y_}, {left() + width(), y_}, {ink, 0.8});
  y_ += 9.0;
  content_top_ = y_;
  on_page_ = {title};
}

/// The title, and on the same line where there is room, else below, what it is of.
void Flow::draw_title(const std::string& title, const std::string& subtitle, double size_pt) {
  constexpr Style small{11.0, Weight::regular, soft};
  const Style big{size_pt, Weight::strong};
  const Size size = measure(*canvas_, title, big, width());
  fill(*canvas_, {left() - 18.0, y_ + 0.22 * size_pt, tab_width_pt, size.height - 0.36 * size_pt}, accent);
  const double top = y_;
  {
    const Tag heading(*canvas_, "H1");
    y_ = draw_text(*canvas_, {left(), y_}, title, big, width()).bottom();
  }
  if (subtitle.empty()) return;
  const Tag paragraph(*canvas_, "P");
  const Size words = measure(*canvas_, subtitle, small);
  if (measure(*canvas_, title, big).width + words.width + 20.0 < width()) {
    draw_label(*canvas_, {left() + width(), top + 0.81 * size.height - 0.81 * words.height}, subtitle, small,
               Across::right, Down::top);
  } else {
    y_ = draw_text(*canvas_, {left(), y_ + 1.0}, subtitle, small, width()).bottom();
  }
}

/// A second sheet on a page: its title a size smaller, the vessel not said again.
void Flow::head_below(const std::string& title, const std::string& subtitle) {
  y_ += 8.0 * white_;
  draw_title(title, subtitle, 17.0);
  y_ += 3.0;
  line(*canvas_, {left(), y_}, {left() + width(), y_}, {ink, 0.8});
  y_ += 8.0;
}

Flow::Trial Flow::try_out(const Draw& draw, double white, bool below) const {
  Canvas blind = Canvas::blind(canvas_->paper());
  Flow trial = *this;
  trial.canvas_ = &blind;
  trial.draw_with(draw, white, below);
  return {blind.page(), trial.share()};
}

double Flow::share() const noexcept {
  const double bottom = canvas_->paper().height_pt - margin_bottom_pt;
  return (y_ - content_top_) / (bottom - content_top_);
}

/// The widest white among those with the fewest pages; where the last of them would be left with a few lines, more
/// white, so that it gets its share.
double Flow::best_white(const Draw& draw) const {
  const int least = open_ ? 2 : 1;  // the page that stands open counts
  double best = whites[0];
  Trial fewest = try_out(draw, best, false);
  if (fewest.pages <= least) return best;
  for (const double white : whites) {
    const Trial trial = try_out(draw, white, false);
    if (trial.pages >= fewest.pages) continue;
    fewest = trial;
    best = white;
  }
  if (fewest.pages <= least || fewest.last_share >= half_full) return best;
  for (const double white : wide_whites) {
    const Trial trial = try_out(draw, white, false);
    if (trial.pages == fewest.pages && trial.last_share >= half_full) return white;
  }
  return best;
}

void Flow::draw_with(const Draw& draw, double white, bool below) {
  const double kept_white = std::exchange(white_, white);
  const bool kept_below = std::exchange(below_, below);
  draw(*this);
  white_ = kept_white;
  below_ = kept_below;
}

void Flow::fit(const Draw& draw) { draw_with(draw, best_white(draw), false); }

void Flow::share_page(const Draw& draw) {
  for (const double white : whites) {
    if (open_ && try_out(draw, white, true).pages == 1) return draw_with(draw, white, true);
  }
  fit(draw);
}

void Flow::run_on(const Draw& draw, double least_pt) { draw_with(draw, white_, open_ && room() >= least_pt); }

double Flow::height_of(const Draw& draw) const {
  constexpr double endless_pt = 14000.0;  // the longest page a PDF may have is 14,400
  Canvas tall = Canvas::blind({canvas_->paper().width_pt, endless_pt, canvas_->paper().name});
  Flow trial = *this;
  trial.canvas_ = &tall;
  trial.y_ = margin_top_pt;
  trial.content_top_ = 0.0;
  trial.open_ = trial.below_ = true;
  draw(trial);
  return trial.y_ - margin_top_pt;
}

void Flow::foot() {
  canvas_->pause_tags();
  page_uses_.push_back({share(), std::exchange(drawing_, false)});
  const double top = canvas_->paper().height_pt - margin_bottom_pt + 6.0;
  const Style small{9.0, Weight::regular, soft};
  line(*canvas_, {left(), top}, {left() + width(), top}, {hair, 0.6});
  const std::string count =
      "page " + std::to_string(canvas_->page()) + " of " + (imprint_.pages > 0 ? std::to_string(imprint_.pages) : "?");
  const double count_width = measure(*canvas_, count, small).width;
  draw_label(*canvas_, {left() + width(), top + 3.0}, count, small, Across::right, Down::top);
  std::string names;
  for (const std::string& title : on_page_) names += (names.empty() ? "" : ", ") + title;
  names += "  ·  " + imprint_.site + "  ·  " + imprint_.occasion;
  draw_line_of_text(*canvas_, {left(), top + 3.0}, names, small, width() - count_width - 20.0);
}

void Flow::close() {
  end_sheet_tag();
  if (open_) foot();
  open_ = false;
}

bool Flow::need(double height_pt) {
  if (height_pt <= room()) return false;
  foot();
  canvas_->next_page();
  head(title_, subtitle_, true);
  return true;
}

Box Flow::take(double height_pt) {
  need(height_pt);
  const Box box{left(), y_, width(), height_pt};
  y_ += height_pt;
  return box;
}

double Flow::heading_height(std::string_view text) {
  return measure(*canvas_, text, style::heading, width()).height + heading_rise_pt + 4.0;
}

void Flow::heading(std::string_view text, double keep_pt) {
  need(heading_height(text) + keep_pt);
  if (y_ > content_top_) y_ += heading_rise_pt * white_;
  const Tag tag(*canvas_, "H2");
  y_ = draw_text(*canvas_, {left(), y_}, text, style::heading, width()).bottom() + 4.0;
}

void Flow::paragraph(std::string_view text, const Style& style) {
  const Size size = measure(*canvas_, text, style, width());
  need(size.height);
  const Tag tag(*canvas_, "P");
  y_ = draw_text(*canvas_, {left(), y_}, text, style, width()).bottom() + paragraph_gap_pt * white_;
}

void Flow::caution_box(std::string_view title, const std::vector<std::string>& sentences, double size_pt, bool whole) {
  if (sentences.empty()) return;
  const Style words{size_pt};
  const Style strong{size_pt + 1.0, Weight::strong, accent};
  constexpr double inset = 26.0;
  constexpr double bar = 3.0;
  const double text_width = width() - inset - 6.0;
  const double title_height = measure(*canvas_, title, strong, width() - 12.0).height;
  const auto height_of = [&](const std::string& text) {
    return measure(*canvas_, text, words, text_width).height + 4.0;
  };
  double total = title_height + 6.0;
  for (const std::string& sentence : sentences) total += height_of(sentence);
  const bool keep = whole && total < 0.5 * canvas_->paper().height_pt;
  need(keep ? total : title_height + height_of(sentences.front()) + 12.0);
  const auto ground = [&](double height) { fill(*canvas_, {left(), y_, bar, height}, accent); };
  ground(title_height + 6.0);
  {
    const Tag heading(*canvas_, "H2");
    draw_text(*canvas_, {left() + 12.0, y_ + 1.0}, title, strong, width() - 12.0);
  }
  y_ += title_height + 6.0;
  const Tag list(*canvas_, "L");
  for (const std::string& sentence : sentences) {
    const double height = height_of(sentence);
    need(height);
    ground(height);
    const double middle = y_ + 0.72 * size_pt;
    const double reach = 0.40 * size_pt;
    const Spot sign[] = {{left() + 16.0, middle - reach},
                         {left() + 16.0 + 1.15 * reach, middle + reach},
                         {left() + 16.0 - 1.15 * reach, middle + reach}};
    fill_polygon(*canvas_, sign, accent);
    const Tag item(*canvas_, "LI");
    const Tag body(*canvas_, "LBody");
    draw_text(*canvas_, {left() + inset, y_}, sentence, words, text_width);
    y_ += height;
  }
  y_ += 8.0 * white_;
}

}  // namespace stillheap::sheet
