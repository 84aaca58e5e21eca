#include "present/draw/dimension.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::sheet {
namespace {

const Pen extension_pen{soft, 0.45};
const Pen dimension_pen{ink, 0.6};
constexpr double past_pt = 3.0;   ///< extension lines run on beyond the dimension line
constexpr double clear_pt = 2.0;  ///< and start clear of the thing they measure
constexpr double head_pt = 6.0;
constexpr double label_rise_pt = 9.5;  ///< middle of the label above the line, clear of the extension lines' ends

/// Turned so that it reads from below or from the right.
double reading_angle(double angle) {
  constexpr double half = 0.5 * constant::pi;
  if (angle > half - 1e-6) angle -= constant::pi;
  if (angle < -half - 1e-6) angle += constant::pi;
  return angle;
}

}  // namespace

void draw_dimension(Canvas& canvas, Spot a, Spot b, double offset_pt, const std::string& label, double label_lift_pt) {
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length < 1e-6) return;
  const Spot along{(b.x - a.x) / length, (b.y - a.y) / length};
  const Spot out{along.y, -along.x};
  const auto moved = [](Spot from, Spot way, double by) { return Spot{from.x + way.x * by, from.y + way.y * by}; };
  const double side = offset_pt < 0.0 ? -1.0 : 1.0;
  for (const Spot& end : {a, b}) {
    line(canvas, moved(end, out, side * clear_pt), moved(end, out, offset_pt + side * past_pt), extension_pen);
  }
  const Spot from = moved(a, out, offset_pt);
  const Spot to = moved(b, out, offset_pt);
  const double angle = std::atan2(along.y, along.x);
  const bool tight = length < 2.0 * head_pt + 4.0;
  const double beyond = tight ? 2.0 * head_pt : 0.0;
  line(canvas, moved(from, along, -beyond), moved(to, along, beyond), dimension_pen);
  arrowhead(canvas, from, tight ? angle : angle + constant::pi, head_pt);
  arrowhead(canvas, to, tight ? angle + constant::pi : angle, head_pt);
  const Spot middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
  draw_turned(canvas, moved(middle, out, side * (label_rise_pt + label_lift_pt)), label, style::drawing,
              reading_angle(angle), true);
}

void draw_angle(Canvas& canvas, Spot centre, double radius_pt, double from_rad, double to_rad,
                const std::string& label) {
  arc(canvas, centre, radius_pt, from_rad, to_rad, dimension_pen);
  const auto on = [&](double angle, double radius) {
    return Spot{centre.x + radius * std::cos(angle), centre.y - radius * std::sin(angle)};
  };
  // A head's own length as an angle tilts it back onto the arc.
  const double tilt = 0.5 * head_pt / radius_pt;
  arrowhead(canvas, on(to_rad, radius_pt), -to_rad - 0.5 * constant::pi + tilt, head_pt);
  arrowhead(canvas, on(from_rad, radius_pt), -from_rad + 0.5 * constant::pi - tilt, head_pt);
  const double middle = 0.5 * (from_rad + to_rad);
  const Size size = measure(canvas, label, style::drawing);
  const double reach = 0.5 * (size.width * std::abs(std::cos(middle)) + size.height * std::abs(std::sin(middle))) + 3.0;
  draw_turned(canvas, on(middle, radius_pt + reach), label, style::drawing, 0.0, true);
}

double draw_callouts(Canvas& canvas, std::vector<Callout> callouts, const Box& column) {
  std::stable_sort(callouts.begin(), callouts.end(),
                   [](const Callout& a, const Callout& b) { return a.anchor.y < b.anchor.y; });
  std::vector<double> heights;
  double total = 0.0;
  constexpr double gap = 6.0;
  for (const Callout& callout : callouts) {
    heights.push_back(measure(canvas, callout.text, style::drawing, column.width).height);
    total += heights.back() + gap;
  }
  double y = column.y;
  double rest = total;
  for (std::size_t i = 0; i < callouts.size(); ++i) {
    // As near to its anchor as the notes above and below leave room.
    const double wanted = callouts[i].anchor.y - 0.5 * heights[i];
    y = std::max(y, std::min(wanted, column.bottom() - rest));
    const double knee = y + 0.5 * measure(canvas, "X", style::drawing).height;
    const Pen leader{callouts[i].colour, 0.55};
    const Spot way[] = {callouts[i].anchor, {column.x - 14.0, knee}, {column.x - 4.0, knee}};
    polyline(canvas, way, leader);
    disc(canvas, callouts[i].anchor, 1.6, callouts[i].colour);
    Style words = style::drawing;
    words.colour = callouts[i].colour;
    draw_text(canvas, {column.x, y}, callouts[i].text, words, column.width);
    y += heights[i] + gap;
    rest -= heights[i] + gap;
  }
  return y;
}

void draw_scale_bar(Canvas& canvas, Spot left, double scale_pt_m, const std::string& label, double length_m) {
  const double length = length_m * scale_pt_m;
  for (int i = 0; i < 4; ++i) {
    const Box piece{left.x + length * i / 4.0, left.y, length / 4.0, 4.0};
    if (i % 2 == 0) fill(canvas, piece, ink);
    frame(canvas, piece, {ink, 0.5});
  }
  draw_label(canvas, {left.x + length + 6.0, left.y + 2.0}, label, style::drawing, Across::left, Down::middle);
}

}  // namespace stillheap::sheet
