#include "present/draw/flow.hpp"

#include <algorithm>
#include <utility>

namespace stillheap::sheet {
namespace {

constexpr double margin_side_pt = 48.0;
constexpr double margin_top_pt = 40.0;
constexpr double margin_bottom_pt = 52.0;
constexpr double tab_width_pt = 7.0;
constexpr double heading_rise_pt = 7.0;  ///< above a heading inside a page

}  // namespace

Flow::Flow(Canvas& canvas, Imprint imprint) : canvas_(&canvas), imprint_(std::move(imprint)) {}

double Flow::left() const noexcept { return margin_side_pt; }
double Flow::width() const noexcept { return canvas_->paper().width_pt - 2.0 * margin_side_pt; }
double Flow::room() const noexcept { return canvas_->paper().height_pt - margin_bottom_pt - y_; }

void Flow::start_sheet(const std::string& title, const std::string& subtitle) {
  if (open_) {
    foot();
    canvas_->next_page();
  }
  open_ = true;
  title_ = title;
  subtitle_ = subtitle;
  sheets_.push_back({subtitle.empty() ? title : title + ": " + subtitle, canvas_->page()});
  head(title, subtitle, false);
}

void Flow::head(const std::string& title, const std::string& subtitle, bool continued) {
  y_ = margin_top_pt;
  const Style big = continued ? Style{15.0, Weight::strong} : style::title;
  const std::string words = continued ? title + ", continued" : title;
  const double title_height = measure(*canvas_, words, big, width()).height;
  fill(*canvas_, {left() - 18.0, y_ + 0.22 * big.size_pt, tab_width_pt, title_height - 0.36 * big.size_pt}, accent);
  y_ = draw_text(*canvas_, {left(), y_}, words, big, width()).bottom();
  if (!subtitle.empty()) {
    y_ = draw_text(*canvas_, {left(), y_ + 1.0}, subtitle, {11.0, Weight::regular, soft}, width()).bottom();
  }
  y_ += 6.0;
  line(*canvas_, {left(), y_}, {left() + width(), y_}, {ink, 0.8});
  y_ += 12.0;
  content_top_ = y_;
}

void Flow::foot() {
  const double top = canvas_->paper().height_pt - margin_bottom_pt + 10.0;
  const Style small{8.5, Weight::regular, soft};
  line(*canvas_, {left(), top}, {left() + width(), top}, {hair, 0.6});
  const std::string count =
      "page " + std::to_string(canvas_->page()) + " of " + (imprint_.pages > 0 ? std::to_string(imprint_.pages) : "?");
  const double count_width = measure(*canvas_, count, small).width;
  draw_label(*canvas_, {left() + width(), top + 4.0}, count, small, Across::right, Down::top);
  const std::string site = imprint_.site + "  ·  " + imprint_.occasion;
  draw_line_of_text(*canvas_, {left(), top + 4.0}, site, small, width() - count_width - 20.0);
}

void Flow::close() {
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
  if (y_ > content_top_) y_ += heading_rise_pt;
  y_ = draw_text(*canvas_, {left(), y_}, text, style::heading, width()).bottom() + 4.0;
}

void Flow::paragraph(std::string_view text, const Style& style) {
  const Size size = measure(*canvas_, text, style, width());
  need(size.height);
  y_ = draw_text(*canvas_, {left(), y_}, text, style, width()).bottom() + 4.0;
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
  draw_text(*canvas_, {left() + 12.0, y_ + 1.0}, title, strong, width() - 12.0);
  y_ += title_height + 6.0;
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
    draw_text(*canvas_, {left() + inset, y_}, sentence, words, text_width);
    y_ += height;
  }
  y_ += 8.0;
}

}  // namespace stillheap::sheet
