#include <algorithm>
#include <cmath>

#include "domain/rules/caution_words.hpp"
#include "present/draw/table.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr int logged_days = 42;  // chosen: six weeks, the hot phase and what follows
constexpr double row_pt = 26.5;  // high enough to write in with gloves on
constexpr double head_pt = 26.0;

struct LogColumn {
  const char* head;
  double share;  ///< of the grid's width
};
constexpr LogColumn columns[] = {{"Day", 0.21},      {"Core", 0.23},  {"Side", 0.13},
                                 {"Moisture", 0.15}, {"Water", 0.12}, {"Who", 0.16}};

class LogGrid {
 public:
  LogGrid(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel)
      : flow_(flow),
        units_(plan.site.units),
        start_(read_date(plan.site.start_date)),
        low_(daily_rows(vessel.forecast.history_low)),
        high_(daily_rows(vessel.forecast.history_high)) {}

  /// Day rows on this page, as many as fit, and on the next.
  void draw() {
    for (int first = 1; first <= logged_days;) {
      if (flow_.room() < head_pt + row_pt) flow_.need(flow_.room() + 1.0);
      const int fitting = static_cast<int>((flow_.room() - head_pt - 6.0) / row_pt);
      const int count = std::min(fitting, logged_days + 1 - first);
      area_ = flow_.take(head_pt + count * row_pt);
      draw_head();
      for (int i = 0; i < count; ++i) draw_row(first + i, area_.y + head_pt + i * row_pt);
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
      const double width = edge(i + 1) - edge(i) - 6.0;
      draw_text(flow_.canvas(), {edge(i) + 3.0, area_.y}, columns[i].head, {12.0, Weight::strong}, width);
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
      line(canvas, {edge(i), y}, {edge(i), y + row_pt}, {soft, 0.4});
    }
  }

  /// "Sun 19 Apr": the year is on the heap's label.
  [[nodiscard]] std::string day_words(int day) const {
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
    fill(flow_.canvas(), {from, y, std::max(1.0, to - from), row_pt}, accent_wash);
    const std::string words = span_of(temperature(low_[day].core_c, units_), temperature(high_[day].core_c, units_));
    draw_label(flow_.canvas(), {left + width - 3.0, y + 0.5 * row_pt}, words, {10.0, Weight::regular, soft},
               Across::right, Down::middle);
  }

  Flow& flow_;
  UnitSystem units_;
  Date start_;
  std::vector<forecast::HistoryRow> low_, high_;
  Box area_;
};

}  // namespace

void log_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  flow.start_sheet("Log sheet, six weeks", vessel_title(vessel.design) + "; vessel no. ______  filled on ____________");
  LogGrid grid(flow, plan, vessel);
  grid.draw();
  flow.paragraph(
      "Shaded: where the core is likely, eight of ten runs of the forecast, day by day from the planned first fill. "
      "Read the core at the same depth and hour each day, the side a hand's width inside the wall. Squeeze a handful "
      "only where the probe reads below " +
          quantity::format(rules::words::touch_c, Dimension::temperature, plan.site.units) +
          ", gloved, and write dry (no drop), right (a few) or wet (it runs). Type it in once a week: see the records "
          "guide.",
      {11.0});
}

}  // namespace stillheap::sheet
