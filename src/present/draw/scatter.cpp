#include "present/draw/scatter.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "present/draw/ticks.hpp"

namespace stillheap::sheet {
namespace {

constexpr double disc_pt = 2.6;
constexpr double quiet_pt = 1.9;
constexpr double inset_pt = 6.0;  ///< so that no point lies on the frame

struct Plot {
  Box box;
  Span across, up;
  [[nodiscard]] double x(double value) const {
    return box.x + inset_pt + (value - across.low) / (across.high - across.low) * (box.width - 2.0 * inset_pt);
  }
  /// What was not reached stands on the upper edge.
  [[nodiscard]] double y(double value) const {
    if (std::isnan(value)) return box.y;
    return box.bottom() - inset_pt - (value - up.low) / (up.high - up.low) * (box.height - 2.0 * inset_pt);
  }
};

Span span_over(const std::vector<ScatterPoint>& points, double ScatterPoint::*part, int most) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const ScatterPoint& point : points) {
    if (std::isnan(point.*part)) continue;
    low = std::min(low, point.*part);
    high = std::max(high, point.*part);
  }
  if (!(low <= high)) return {};
  if (low == high) {  // one value: room beside it
    const double room = low == 0.0 ? 1.0 : 0.1 * std::abs(low);
    if (low != 0.0) low -= room;  // most of what is shown cannot be below nought
    high += room;
  }
  return round_span(low, high, most);
}

void draw_axes(Canvas& canvas, const Plot& plot, double text_pt) {
  const Style style{text_pt, Weight::regular, soft};
  for (const Tick& tick : ticks_of(plot.up)) {
    const double y = plot.y(tick.at);
    line(canvas, {plot.box.x, y}, {plot.box.right(), y}, {hair, 0.4});
    draw_label(canvas, {plot.box.x - 4.0, y}, tick.label, style, Across::right, Down::middle);
  }
  const std::vector<Tick> across = ticks_of(plot.across);
  std::vector<double> widths;
  widths.reserve(across.size());
  for (const Tick& tick : across) widths.push_back(measure(canvas, tick.label, style).width);
  const double scale = plot.box.width / (plot.across.high - plot.across.low);
  for (const Tick& tick : thin_out(across, widths, scale, 5.0)) {
    const double x = plot.x(tick.at);
    line(canvas, {x, plot.box.bottom()}, {x, plot.box.bottom() + 3.0}, {soft, 0.6});
    draw_label(canvas, {x, plot.box.bottom() + 4.0}, tick.label, style, Across::middle, Down::top);
  }
  frame(canvas, plot.box, {soft, 0.6});
}

void draw_point(Canvas& canvas, const Plot& plot, const ScatterPoint& point) {
  const Spot at{plot.x(point.x), plot.y(point.y)};
  if (std::isnan(point.y)) {
    const Pen pen{point.label.empty() ? soft : accent, 1.0};
    line(canvas, {at.x - quiet_pt, at.y - quiet_pt}, {at.x + quiet_pt, at.y + quiet_pt}, pen);
    line(canvas, {at.x - quiet_pt, at.y + quiet_pt}, {at.x + quiet_pt, at.y - quiet_pt}, pen);
  } else if (point.label.empty()) {
    circle(canvas, at, quiet_pt, {soft, 0.7});
  } else {
    disc(canvas, at, disc_pt, accent);
  }
}

/// Tries four places around each named point; one that would touch another label or leave the plot stays without.
void draw_names(Canvas& canvas, const Plot& plot, const Scatter& scatter) {
  const Style style{scatter.text_pt - 1.0};
  std::vector<Box> taken;
  for (const ScatterPoint& point : scatter.points) {
    if (point.label.empty() || std::isnan(point.y)) continue;
    const Size size = measure(canvas, point.label, style);
    const Spot at{plot.x(point.x), plot.y(point.y)};
    const Spot corners[] = {{at.x + 4.0, at.y - size.height},
                            {at.x + 4.0, at.y},
                            {at.x - 4.0 - size.width, at.y - size.height},
                            {at.x - 4.0 - size.width, at.y}};
    for (const Spot& corner : corners) {
      // A little wider than its ink, so that "1" beside "4" does not read as 14.
      const Box box{corner.x - 1.5, corner.y, size.width + 3.0, size.height};
      const bool free = within(box, plot.box) &&
                        std::none_of(taken.begin(), taken.end(), [&](const Box& other) { return overlap(box, other); });
      if (!free) continue;
      draw_text(canvas, corner, point.label, style);
      taken.push_back(box);
      break;
    }
  }
}

}  // namespace

void draw_scatter(Canvas& canvas, const Box& box, const Scatter& scatter) {
  const Style title{scatter.text_pt + 0.5, Weight::strong};
  const Style small{scatter.text_pt, Weight::regular, soft};
  const double head = draw_text(canvas, {box.x, box.y}, scatter.y_title, title, box.width).height + 5.0;
  Plot plot;
  plot.across = span_over(scatter.points, &ScatterPoint::x, 6);
  if (scatter.whole_x && plot.across.step < 1.0)
    plot.across = {std::floor(plot.across.low), std::ceil(plot.across.high), 1.0};
  plot.up = span_over(scatter.points, &ScatterPoint::y, 5);
  double left = 0.0;
  for (const Tick& tick : ticks_of(plot.up)) left = std::max(left, measure(canvas, tick.label, small).width + 6.0);
  const double tick_height = measure(canvas, "0", small).height + 5.0;
  const double foot = measure(canvas, scatter.x_title, small, box.width).height + tick_height + 1.0;
  plot.box = {box.x + left, box.y + head, box.width - left - 8.0, box.height - head - foot};
  draw_axes(canvas, plot, scatter.text_pt);
  for (const bool named : {false, true}) {  // those that stand out lie on top
    for (const ScatterPoint& point : scatter.points) {
      if (point.label.empty() != named) draw_point(canvas, plot, point);
    }
  }
  draw_names(canvas, plot, scatter);
  draw_label(canvas, {plot.box.right(), plot.box.bottom() + tick_height}, scatter.x_title, small, Across::right,
             Down::top);
}

}  // namespace stillheap::sheet
