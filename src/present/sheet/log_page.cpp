#include <algorithm>
#include <cmath>

#include "domain/rules/caution_words.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/labels_page.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"
#include "yard/record/log_sheet.hpp"

namespace stillheap::sheet {
namespace {

using record::LogColumn;

constexpr double most_row_pt = 26.5;  // high enough to write in with gloves on
constexpr double least_row_pt = 21.5;
constexpr double head_pt = 26.0;

struct PaperColumn {
  LogColumn column;
  double share;  ///< of the grid's width
};
/// The hour is the same every day, so it stands once at the head.
constexpr PaperColumn columns[] = {{LogColumn::day, 0.21},      {LogColumn::core, 0.25},  {LogColumn::side, 0.13},
                                   {LogColumn::moisture, 0.14}, {LogColumn::water, 0.12}, {LogColumn::who, 0.15}};

class LogGrid {
 public:
  LogGrid(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel, double row_height)
      : flow_(flow),
        row_pt_(row_height),
        units_(plan.site.units),
        dated_(vessel.design.count == 1),
        start_(read_date(plan.site.start_date)),
        low_(daily_rows(vessel.forecast.history_low)),
        high_(daily_rows(vessel.forecast.history_high)) {}

  /// Day rows on this page, as many as fit, and on the next.
  void draw() {
    for (int first = 1; first <= record::logged_days;) {
      if (flow_.room() < head_pt + row_pt_) flow_.need(flow_.room() + 1.0);
      const int fitting = static_cast<int>((flow_.room() - head_pt - 6.0) / row_pt_);
      const int count = std::min(fitting, record::logged_days + 1 - first);
      area_ = flow_.take(head_pt + count * row_pt_);
      draw_head();
      for (int i = 0; i < count; ++i) draw_row(first + i, area_.y + head_pt + i * row_pt_);
      line(flow_.canvas(), {area_.x, area_.bottom()}, {area_.right(), area_.bottom()}, {ink, 1.0});
      first += count;
    }
    flow_.space(6.0);
  }

 private:
  static constexpr double axis_low_c = 0.0, axis_high_c = 80.0;  // of the bands

  [[nodiscard]] double edge(std::size_t column) const {
    double share = 0.0;
    for (std::size_t i = 0; i < column; ++i) share += columns[i].share;
    return area_.x + share * area_.width;
  }

  void draw_head() const {
    for (std::size_t i = 0; i < std::size(columns); ++i) {
      const record::LogColumnInfo& column = record::info(columns[i].column);
      const std::string_view unit = record::unit_of(column, units_);
      const std::string head = std::string(column.name) + (unit.empty() ? "" : ", " + std::string(unit));
      draw_text(flow_.canvas(), {edge(i) + 3.0, area_.y}, head, {12.0, Weight::strong}, edge(i + 1) - edge(i) - 6.0);
    }
  }

  void draw_row(int day, double y) const {
    Canvas& canvas = flow_.canvas();
    draw_likely(static_cast<std::size_t>(day - 1), y);
    const double weight = (day - 1) % 7 == 0 ? 1.0 : 0.4;
    line(canvas, {area_.x, y}, {area_.right(), y}, {ink, weight});
    draw_line_of_text(canvas, {edge(0) + 3.0, y + 4.0}, std::to_string(day) + "  " + day_words(day), {12.0},
                      edge(1) - edge(0) - 4.0);
    for (std::size_t i = 0; i <= std::size(columns); ++i) {
      line(canvas, {edge(i), y}, {edge(i), y + row_pt_}, {soft, 0.4});
    }
  }

  /// "Sun 19 Apr": the year is on the heap's label. Of vessels that are filled one after the other, room to write the
  /// date that begins each week.
  [[nodiscard]] std::string day_words(int day) const {
    if (!dated_) return day % 7 == 1 ? "date ________" : "";
    const std::string date = short_date(after(start_, day));
    const std::size_t year = date.rfind(' ');
    return year == std::string::npos ? date : date.substr(0, year);
  }

  void draw_likely(std::size_t day, double y) const {
    if (day >= low_.size() || day >= high_.size()) return;
    const double left = edge(1), width = edge(2) - edge(1);
    const auto place = [&](double c) {
      return left + width * std::clamp((c - axis_low_c) / (axis_high_c - axis_low_c), 0.0, 1.0);
    };
    const double from = place(low_[day].core_c), to = place(high_[day].core_c);
    fill(flow_.canvas(), {from, y, std::max(1.0, to - from), row_pt_}, accent_wash);
    const std::string words = span_of(temperature(low_[day].core_c, units_), temperature(high_[day].core_c, units_));
    draw_label(flow_.canvas(), {left + width - 3.0, y + 0.5 * row_pt_}, words, {12.0, Weight::regular, soft},
               Across::right, Down::middle);
  }

  Flow& flow_;
  double row_pt_;
  UnitSystem units_;
  bool dated_;
  Date start_;
  std::vector<forecast::HistoryRow> low_, high_;
  Box area_;
};

/// What is written once at the head, and the vessel's label: its code where the site file has the page's address, else
/// room to stick one that the page printed.
void draw_label_place(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  Canvas& canvas = flow.canvas();
  const Box size = label_size(canvas.paper());
  const Box area = flow.take(size.height + 8.0);
  const Box label{area.right() - size.width, area.y, size.width, size.height};
  constexpr Style words{12.0};
  constexpr double line_pt = 31.0;
  double y = area.y + 4.0;
  for (const char* blank : {"Vessel no.", "Filled on", "Read each day at", "Probe depth"}) {
    const Box told = draw_text(canvas, {area.x, y}, blank, words);
    line(canvas, {told.right() + 6.0, told.bottom()}, {label.x - 18.0, told.bottom()}, {ink, 0.6});
    y += line_pt;
  }
  draw_text(canvas, {area.x, y}, "Day 1 is the day after the filling.", {12.0, Weight::regular, soft},
            label.x - 18.0 - area.x);
  if (!plan.site.page.empty()) {
    return draw_vessel_label(canvas, label, {vessel.design.name, plan.site.page + "/#/round"});
  }
  frame(canvas, label, {soft, 0.8, {4.0, 3.0}});
  draw_text(canvas, {label.x + 12.0, label.y + 12.0},
            "Stick the vessel's label with its code here: the page prints labels under Settings. With the page's "
            "address in the site file (site.page) the code is printed here.",
            {12.0, Weight::regular, soft}, label.width - 24.0);
}

std::string squeeze_words() {
  std::string text;
  for (const record::Squeeze& one : record::squeezes) {
    text += (text.empty()                               ? ""
             : one.word == record::squeezes.back().word ? " or "
                                                        : ", ") +
            std::string(one.word) + " (" + std::string(one.meaning) + ")";
  }
  return text;
}

}  // namespace

namespace {

void words_under(Flow& flow, UnitSystem units) {
  flow.paragraph(
      "Shaded: where the core is likely, eight of ten runs of the forecast. Read the core at the same depth and hour "
      "each day, the side a hand's width inside the wall. Squeeze a handful only where the probe reads below " +
          quantity::format(rules::words::touch_c, Dimension::temperature, units) + ", gloved, and write " +
          squeeze_words() + ". Under water write how much, or how long it ran (10 min).",
      style::card);
  flow.paragraph(
      "Once a week type the rows into a copy of log.csv, which lies beside this pack and has the same columns, and "
      "give "
      "it: stillheap import SITE log.csv --log --vessel NAME --by INITIALS. Empty rows and what is known already are "
      "passed over. Begin a row with the day's number; change the hour where you read at another than " +
          std::string(record::usual_hour) + ".",
      style::card);
}

/// All rows alike, as high as two pages allow.
double row_height(const Flow& flow, UnitSystem units, double label_pt) {
  const double words_pt = flow.height_of([units](Flow& below) { words_under(below, units); });
  constexpr double slack_pt = 24.0;
  const double room = 2.0 * (flow.room() - head_pt) - label_pt - words_pt - slack_pt;
  return std::clamp(room / record::logged_days, least_row_pt, most_row_pt);
}

}  // namespace

void log_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  flow.start_sheet("Log sheet, six weeks", vessel_title(vessel.design) + "; a sheet for each vessel");
  const double row_pt = row_height(flow, plan.site.units, label_size(flow.canvas().paper()).height + 8.0);
  draw_label_place(flow, plan, vessel);
  LogGrid grid(flow, plan, vessel, row_pt);
  grid.draw();
  words_under(flow, plan.site.units);
}

}  // namespace stillheap::sheet
