#include "present/sheet/line_figure.hpp"

#include <algorithm>
#include <cmath>

#include "present/draw/ticks.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double left_pt = 44.0;
constexpr double title_pt = 14.0;

/// Values in the reader's unit along the line, in a frame.
struct Plot {
  std::string title;
  std::vector<double> at, value;
  double length = 1.0;
};

AxisUnit unit_of(const std::string& name, Dimension dimension) {
  const double one = quantity::parse("1 " + name, dimension);
  return {name, 1.0 / one, 0.0};
}

double x_of(const Box& frame, const Plot& plot, double at) { return frame.x + at / plot.length * frame.width; }

void draw_plot(Canvas& canvas, const Box& box, const Plot& plot, bool with_axis, const std::string& axis) {
  const double most = *std::max_element(plot.value.begin(), plot.value.end());
  const Span span = round_span(0.0, std::max(most, 1e-9), 4);
  const Box ground{box.x + left_pt, box.y + title_pt, box.width - left_pt - 8.0, box.height - title_pt - 4.0};
  const auto y_of = [&](double value) { return ground.bottom() - value / span.high * ground.height; };
  draw_line_of_text(canvas, {box.x, box.y - 1.0}, plot.title, style::label, box.width);
  for (const Tick& tick : ticks_of(span)) {
    line(canvas, {ground.x, y_of(tick.at)}, {ground.right(), y_of(tick.at)}, {hair, 0.4});
    draw_label(canvas, {ground.x - 4.0, y_of(tick.at)}, tick.label, style::label, Across::right, Down::middle);
  }
  const double bar = std::clamp(0.5 * ground.width / static_cast<double>(plot.at.size()), 1.0, 6.0);
  for (std::size_t i = 0; i < plot.at.size(); ++i) {
    const double x = x_of(ground, plot, plot.at[i]);
    fill(canvas, {x - bar / 2.0, y_of(plot.value[i]), bar, ground.bottom() - y_of(plot.value[i])}, accent);
  }
  line(canvas, {ground.x, ground.bottom()}, {ground.right(), ground.bottom()}, {ink, 0.8});
  if (!with_axis) return;
  const Span along = round_span(0.0, plot.length, 8);
  for (const Tick& tick : ticks_of(along)) {
    if (tick.at > plot.length * (1.0 + 1e-9)) continue;
    const double x = x_of(ground, plot, tick.at);
    line(canvas, {x, ground.bottom()}, {x, ground.bottom() + 3.0}, {ink, 0.6});
    draw_label(canvas, {x, ground.bottom() + 4.0}, tick.label, style::label, Across::middle, Down::top);
  }
  draw_label(canvas, {ground.middle_x(), ground.bottom() + 15.0}, axis, style::label, Across::middle, Down::top);
}

}  // namespace

void draw_line_figure(Canvas& canvas, const Box& box, const water::Line& line, const water::LineFlow& flow,
                      UnitSystem units) {
  if (flow.hole_distance_m.size() != flow.hole_flow_m3_s.size() || flow.hole_flow_m3_s.empty()) return;
  const bool us = units == UnitSystem::us;
  const AxisUnit length = unit_of(us ? "ft" : "m", Dimension::length);
  const AxisUnit pressure = unit_of(us ? "psi" : "kPa", Dimension::pressure);
  const AxisUnit discharge = unit_of(us ? "gph" : "L/h", Dimension::flow);
  Plot pressures{"Pressure at each hole, " + pressure.label, {}, {}, length.shown(line.length_m)};
  Plot flows{"Flow of each hole, " + discharge.label, {}, {}, length.shown(line.length_m)};
  for (std::size_t i = 0; i < flow.hole_distance_m.size(); ++i) {
    pressures.at.push_back(length.shown(flow.hole_distance_m[i]));
    pressures.value.push_back(pressure.shown(flow.hole_pressure_pa[i]));
    flows.value.push_back(discharge.shown(flow.hole_flow_m3_s[i]));
  }
  flows.at = pressures.at;
  const double each = (box.height - 30.0) / 2.0;
  const std::string axis = "way along the line from the inlet, " + length.label;
  draw_plot(canvas, {box.x, box.y, box.width, each - 6.0}, pressures, false, "");
  draw_plot(canvas, {box.x, box.y + each, box.width, each}, flows, true, axis);
}

}  // namespace stillheap::sheet
