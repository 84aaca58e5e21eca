#include "present/draw/chart.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <utility>

namespace stillheap::sheet {
namespace {

struct Frame {
  Box plot;
  Span value;
  double days = 1.0;
  [[nodiscard]] double x(double day) const { return plot.x + day / days * plot.width; }
  [[nodiscard]] double y(double shown) const {
    return plot.bottom() - (shown - value.low) / (value.high - value.low) * plot.height;
  }
};

Span value_range(const Chart& chart) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  const auto take = [&](const std::vector<double>& values) {
    for (const double v : values) {
      low = std::min(low, v);
      high = std::max(high, v);
    }
  };
  for (const Curve& curve : chart.curves) take(curve.value);
  for (const Ribbon& ribbon : chart.ribbons) {
    take(ribbon.low);
    take(ribbon.high);
  }
  for (const Mark& mark : chart.marks) take({mark.value});
  Span range = round_span(chart.floor.value_or(low), chart.ceiling.value_or(high), chart.most_ticks);
  if (chart.floor) range.low = *chart.floor;
  if (chart.ceiling) range.high = *chart.ceiling;
  return range;
}

/// Swatches with labels, wrapped into rows; returns the height used.
double draw_legend(Canvas& canvas, const Box& box, const Chart& chart) {
  const Style style{chart.text_pt};
  const double row = measure(canvas, "X", style).height + 1.0;
  double x = box.x;
  double y = box.y;
  const auto entry = [&](const std::string& label, const std::function<void(Box)>& swatch) {
    if (label.empty()) return;
    constexpr double sample = 20.0;
    const double wide = sample + 5.0 + measure(canvas, label, style).width;
    if (x > box.x && x + wide > box.right()) {
      x = box.x;
      y += row;
    }
    swatch({x, y, sample, row});
    draw_text(canvas, {x + sample + 5.0, y}, label, style);
    x += wide + 16.0;
  };
  for (const Curve& curve : chart.curves) {
    entry(curve.label, [&](Box b) { line(canvas, {b.x, b.middle_y()}, {b.right(), b.middle_y()}, curve.pen); });
  }
  for (const Ribbon& ribbon : chart.ribbons) {
    entry(ribbon.label, [&](Box b) { fill(canvas, {b.x, b.middle_y() - 3.5, b.width, 7.0}, ribbon.colour); });
  }
  return x > box.x ? y + row - box.y : 0.0;
}

void draw_value_axis(Canvas& canvas, const Frame& frame, const Chart& chart, const std::vector<Tick>& ticks) {
  const Style style{chart.text_pt, Weight::regular, soft};
  for (const Tick& tick : ticks) {
    const double y = frame.y(tick.at);
    line(canvas, {frame.plot.x, y}, {frame.plot.right(), y}, {hair, 0.4});
    draw_label(canvas, {frame.plot.x - 5.0, y}, tick.label, style, Across::right, Down::middle);
  }
}

void draw_time_axis(Canvas& canvas, const Frame& frame, const Chart& chart) {
  const Style style{chart.text_pt, Weight::regular, soft};
  const std::vector<Tick> all =
      chart.weekly ? week_ticks(chart.start, chart.days) : month_ticks(chart.start, chart.days);
  std::vector<double> widths;
  widths.reserve(all.size());
  for (const Tick& tick : all) widths.push_back(measure(canvas, tick.label, style).width);
  for (const Tick& tick : all) {
    line(canvas, {frame.x(tick.at), frame.plot.bottom()}, {frame.x(tick.at), frame.plot.bottom() + 3.0}, {soft, 0.6});
  }
  const double half_room = frame.plot.right();
  for (const Tick& tick : thin_out(all, widths, frame.plot.width / frame.days, 6.0)) {
    const double half = measure(canvas, tick.label, style).width / 2.0;
    const double x = std::clamp(frame.x(tick.at), frame.plot.x + half - 4.0, half_room - half + 4.0);
    draw_label(canvas, {x, frame.plot.bottom() + 4.0}, tick.label, style, Across::middle, Down::top);
  }
}

void draw_marks(Canvas& canvas, const Frame& frame, const Chart& chart) {
  const Style style{chart.text_pt};
  std::vector<double> wanted;
  for (const Mark& mark : chart.marks) wanted.push_back(frame.y(mark.value));
  const double tall = measure(canvas, "X", style).height;
  const std::vector<double> places = spread(wanted, tall, frame.plot.y + 0.5 * tall, frame.plot.bottom() - 0.5 * tall);
  for (std::size_t i = 0; i < chart.marks.size(); ++i) {
    line(canvas, {frame.plot.x, wanted[i]}, {frame.plot.right(), wanted[i]}, {ink, 0.8, {1.5, 2.5}});
    line(canvas, {frame.plot.right(), wanted[i]}, {frame.plot.right() + 5.0, places[i]}, {soft, 0.5});
    draw_label(canvas, {frame.plot.right() + 7.0, places[i]}, chart.marks[i].label, style, Across::left, Down::middle);
  }
}

void draw_data(Canvas& canvas, const Frame& frame, const Chart& chart) {
  const Clip clip(canvas, frame.plot);
  for (const Ribbon& ribbon : chart.ribbons) {
    std::vector<Spot> edge;
    for (std::size_t i = 0; i < ribbon.day.size(); ++i)
      edge.push_back({frame.x(ribbon.day[i]), frame.y(ribbon.high[i])});
    for (std::size_t i = ribbon.day.size(); i-- > 0;) edge.push_back({frame.x(ribbon.day[i]), frame.y(ribbon.low[i])});
    fill_polygon(canvas, edge, ribbon.colour);
  }
  for (const Curve& curve : chart.curves) {
    std::vector<Spot> way;
    for (std::size_t i = 0; i < curve.day.size(); ++i) way.push_back({frame.x(curve.day[i]), frame.y(curve.value[i])});
    polyline(canvas, way, curve.pen);
  }
}

/// Room for tick labels at the left and mark labels at the right.
std::pair<double, double> side_room(Canvas& canvas, const Chart& chart) {
  const Style small{chart.text_pt};
  const Span range = value_range(chart);
  double left = chart.least_left_pt;
  double right = std::max(4.0, chart.least_right_pt);
  for (const Tick& tick : ticks_of(range)) {
    left = std::max(left, measure(canvas, tick.label, small).width + 6.0);
  }
  for (const Mark& mark : chart.marks) right = std::max(right, measure(canvas, mark.label, small).width + 9.0);
  return {left, right};
}

}  // namespace

void align_frames(Canvas& canvas, std::vector<Chart>& charts) {
  double left = 0.0;
  double right = 0.0;
  for (const Chart& chart : charts) {
    const auto [one_left, one_right] = side_room(canvas, chart);
    left = std::max(left, one_left);
    right = std::max(right, one_right);
  }
  for (Chart& chart : charts) {
    chart.least_left_pt = left;
    chart.least_right_pt = right;
  }
}

void draw_chart(Canvas& canvas, const Box& box, const Chart& chart) {
  const Tag tag(canvas, "Figure");
  const Style small{chart.text_pt};
  const Style strong{chart.text_pt + 1.5, Weight::strong};
  double said = 0.0;
  if (!chart.message.empty()) said = draw_text(canvas, {box.x, box.y}, chart.message, strong, box.width).height + 2.0;
  const Style title = said > 0.0 ? small : strong;
  const double title_height = said + draw_text(canvas, {box.x, box.y + said}, chart.title, title, box.width).height;
  const double legend = draw_legend(canvas, {box.x, box.y + title_height + 1.0, box.width, box.height}, chart);
  Frame frame;
  frame.value = value_range(chart);
  frame.days = std::max(chart.days, 1e-6);
  const std::vector<Tick> ticks = ticks_of(frame.value);
  const auto [left, right] = side_room(canvas, chart);
  const double line_height = measure(canvas, "X", small).height;
  const double top = title_height + legend + 0.5 * line_height + 2.0;
  frame.plot = {box.x + left, box.y + top, box.width - left - right, box.height - top - line_height - 6.0};
  draw_value_axis(canvas, frame, chart, ticks);
  draw_data(canvas, frame, chart);
  draw_marks(canvas, frame, chart);
  sheet::frame(canvas, frame.plot, {soft, 0.6});
  draw_time_axis(canvas, frame, chart);
}

}  // namespace stillheap::sheet
