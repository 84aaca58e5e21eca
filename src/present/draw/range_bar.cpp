#include "present/draw/range_bar.hpp"

#include <algorithm>

namespace stillheap::sheet {
namespace {

void draw_bar(Canvas& canvas, const Box& bar, const Reading& reading) {
  const auto x = [&](double value) { return bar.x + std::clamp(value / reading.axis_high, 0.0, 1.0) * bar.width; };
  const double low = x(reading.low.value_or(0.0));
  const double high = x(reading.high.value_or(reading.axis_high));
  frame(canvas, bar, {hair, 0.6});
  fill(canvas, {low, bar.y, high - low, bar.height}, accent_wash);
  for (const double edge : {low, high}) line(canvas, {edge, bar.y - 1.5}, {edge, bar.bottom() + 1.5}, {soft, 0.7});
  const double at = x(reading.shown);
  const Spot needle[] = {{at, bar.bottom()}, {at - 4.0, bar.y - 5.0}, {at + 4.0, bar.y - 5.0}};
  fill_polygon(canvas, needle, ink);
  const Style small{7.5, Weight::regular, soft};
  const double low_wide = reading.low ? measure(canvas, reading.low_words, small).width : 0.0;
  const double high_wide = reading.high ? measure(canvas, reading.high_words, small).width : 0.0;
  double low_x = std::max(bar.x, low - 0.5 * low_wide);
  double high_x = std::min(bar.right() - high_wide, high - 0.5 * high_wide);
  if (reading.low && reading.high && low_x + low_wide + 5.0 > high_x) {
    const double need = low_x + low_wide + 5.0 - high_x;
    low_x -= 0.5 * need;
    high_x += 0.5 * need;
  }
  if (reading.low) draw_text(canvas, {low_x, bar.bottom() + 1.5}, reading.low_words, small);
  if (reading.high) draw_text(canvas, {high_x, bar.bottom() + 1.5}, reading.high_words, small);
}

}  // namespace

std::string verdict(const Reading& reading) {
  if (!reading.low && !reading.high) return "";
  if (reading.low && reading.shown < *reading.low) return "below the range";
  if (reading.high && reading.shown > *reading.high) return "above the range";
  return "within";
}

void draw_readings(Flow& flow, const std::vector<Reading>& readings) {
  const Style name{11.0};
  const Style value{12.0, Weight::strong};
  const double name_wide = 0.29 * flow.width();
  const double value_wide = 0.19 * flow.width();
  const double bar_wide = 0.33 * flow.width();
  for (const Reading& reading : readings) {
    const double bar_x = flow.left() + name_wide + value_wide;
    const double verdict_x = bar_x + bar_wide + 14.0;
    const double verdict_wide = flow.left() + flow.width() - verdict_x;
    const bool ranged = reading.low || reading.high;
    const double words_wide = ranged ? verdict_wide : flow.left() + flow.width() - bar_x;
    const std::string words = ranged ? verdict(reading) : reading.note;
    const Style verdict_style{10.0, words == "within" || !ranged ? Weight::regular : Weight::strong,
                              words == "within" || !ranged ? soft : accent};
    const double height = std::max({31.0, measure(flow.canvas(), reading.name, name, name_wide - 8.0).height + 10.0,
                                    measure(flow.canvas(), words, verdict_style, words_wide).height + 10.0});
    const Box row = flow.take(height);
    const auto centred = [&](const std::string& text, const Style& style, double x, double wide) {
      const double tall = measure(flow.canvas(), text, style, wide).height;
      draw_text(flow.canvas(), {x, row.middle_y() - 0.5 * tall}, text, style, wide);
    };
    centred(reading.name, name, row.x, name_wide - 8.0);
    centred(reading.value, value, row.x + name_wide, value_wide - 8.0);
    centred(words, verdict_style, ranged ? verdict_x : bar_x, words_wide);
    if (ranged) draw_bar(flow.canvas(), {bar_x, row.middle_y() - 5.0, bar_wide, 8.0}, reading);
    line(flow.canvas(), {row.x, row.bottom()}, {row.right(), row.bottom()}, {hair, 0.5});
  }
  flow.space(12.0);
}

}  // namespace stillheap::sheet
