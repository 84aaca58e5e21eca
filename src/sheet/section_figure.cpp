#include "sheet/section_figure.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::Snapshot;
using plan::VesselPlan;

constexpr double name_width_pt = 66.0;  ///< row names at the left
constexpr double column_gap_pt = 10.0;
constexpr double row_gap_pt = 8.0;
constexpr double legend_height_pt = 52.0;
constexpr double head_height_pt = 30.0;

/// One of the two fields shown, with how it is coloured.
struct Shown {
  std::string name;
  Field Snapshot::*field;
  Dimension dimension;
  FieldMap map;
  double line_at;  ///< SI value drawn as a line
  std::string line_words;
};

std::vector<Shown> shown_fields(UnitSystem units) {
  return {{"Temperature", &Snapshot::temperature_c, Dimension::temperature, FieldMap::inferno, 55.0,
           quantity::format(55.0, Dimension::temperature, units)},
          {"Oxygen", &Snapshot::oxygen, Dimension::fraction, FieldMap::viridis, 0.05, "5 %"}};
}

double plan_width_m(const vessel::Design& design) {
  return design.footprint == vessel::Footprint::round ? design.diameter_m : design.length_m;
}
double plan_depth_m(const vessel::Design& design) {
  return design.footprint == vessel::Footprint::round ? design.diameter_m : design.width_m;
}

struct Layout {
  double column_pt = 0.0, plan_pt = 0.0, upright_pt = 0.0, scale_pt_m = 0.0;
};

Layout layout_for(double width_pt, const VesselPlan& vessel) {
  Layout layout;
  layout.column_pt = (width_pt - name_width_pt - 3.0 * column_gap_pt) / 4.0;
  // The tallest cell is kept to 1.25 columns, so that a slim, high vessel does not push the sheet over the page.
  const double tall = std::max(plan_depth_m(vessel.design), vessel.design.height_m);
  layout.scale_pt_m = std::min(layout.column_pt / plan_width_m(vessel.design), 1.25 * layout.column_pt / tall);
  layout.plan_pt = plan_depth_m(vessel.design) * layout.scale_pt_m;
  layout.upright_pt = vessel.design.height_m * layout.scale_pt_m;
  return layout;
}

Span range_of(const VesselPlan& vessel, const Shown& shown, const std::vector<std::size_t>& chosen, UnitSystem units) {
  if (shown.dimension == Dimension::fraction) return {0.0, 0.21, 0.05};
  double low = 1e9;
  double high = -1e9;
  for (const std::size_t i : chosen) {
    for (const float value : vessel.forecast.snapshots[i].*shown.field) {
      low = std::min(low, static_cast<double>(value));
      high = std::max(high, static_cast<double>(value));
    }
  }
  const AxisUnit unit = axis_unit(shown.dimension, units);
  const Span round = round_span(unit.shown(low), unit.shown(high), 7);
  return {(round.low - unit.offset) / unit.scale, (round.high - unit.offset) / unit.scale, round.step / unit.scale};
}

void outline_plan(Canvas& canvas, const vessel::Design& design, const Projection& view) {
  const Pen pen{ink, 0.8};
  if (design.footprint == vessel::Footprint::round) {
    circle(canvas, view.origin, 0.5 * design.diameter_m * view.scale_pt_m, pen);
  } else {
    const Spot corner = view.spot({-0.5 * design.length_m, 0.5 * design.width_m});
    frame(canvas, {corner.x, corner.y, design.length_m * view.scale_pt_m, design.width_m * view.scale_pt_m}, pen);
  }
  for (const vessel::Channel& channel : design.channels) {
    circle(canvas, view.spot(channel.centre), 0.5 * channel.diameter_m * view.scale_pt_m, {ink, 0.5});
  }
}

void draw_cut(Canvas& canvas, const Box& cell, const std::vector<ValueTriangle>& cut, const Projection& view,
              const Shown& shown, Span range) {
  paint_field(canvas, cell, cut, view, shown.map, range.low, range.high);
  const std::vector<Segment> pieces = level_line(cut, shown.line_at);
  for (const Pen& pen : {Pen{paper_white, 2.2}, Pen{ink, 0.9}}) {
    for (const Segment& piece : pieces) line(canvas, view.spot(piece.from), view.spot(piece.to), pen);
  }
}

void draw_legend_bar(Canvas& canvas, const Box& bar, const Shown& shown, Span range, UnitSystem units) {
  constexpr int strips = 128;
  for (int i = 0; i < strips; ++i) {
    const double share = (i + 0.5) / strips;
    const double x = bar.x + bar.width * i / strips;
    fill(canvas, {x, bar.y, bar.width / strips + 0.3, bar.height}, map_colour(shown.map, share));
  }
  frame(canvas, bar, {ink, 0.6});
  const AxisUnit unit = axis_unit(shown.dimension, units);
  const Span axis{unit.shown(range.low), unit.shown(range.high), range.step * unit.scale};
  const Style small{8.0};
  for (const Tick& tick : ticks_of(axis)) {
    const double x = bar.x + (tick.at - axis.low) / (axis.high - axis.low) * bar.width;
    line(canvas, {x, bar.bottom()}, {x, bar.bottom() + 3.0}, {ink, 0.6});
    draw_label(canvas, {x, bar.bottom() + 3.0}, tick.label, small, Across::middle, Down::top);
  }
  const std::string words = shown.name + ", " + (shown.dimension == Dimension::fraction ? "% by volume" : unit.label) +
                            "; line at " + shown.line_words;
  draw_label(canvas, {bar.x, bar.y - 1.0}, words, {8.5}, Across::left, Down::bottom);
}

struct Scene {
  Canvas& canvas;
  const Box& box;
  const VesselPlan& vessel;
  const std::vector<std::size_t>& chosen;
  Layout layout;
  [[nodiscard]] double column_x(std::size_t column) const {
    return box.x + name_width_pt + static_cast<double>(column) * (layout.column_pt + column_gap_pt);
  }
};

double draw_rows(const Scene& scene, const Shown& shown, Span range, double top) {
  const forecast::Result& result = scene.vessel.forecast;
  const vessel::Design& design = scene.vessel.design;
  const double below = top + scene.layout.plan_pt + row_gap_pt;
  const double scale = scene.layout.scale_pt_m;
  for (std::size_t c = 0; c < scene.chosen.size(); ++c) {
    const Snapshot& snapshot = result.snapshots[scene.chosen[c]];
    const Field& field = snapshot.*shown.field;
    const double middle = scene.column_x(c) + 0.5 * scene.layout.column_pt;
    const double wide = plan_width_m(design) * scale;
    const Projection in_plan{{middle, top + 0.5 * scene.layout.plan_pt}, scale};
    draw_cut(scene.canvas, {middle - 0.5 * wide, top, wide, scene.layout.plan_pt},
             plan_cut(result.mesh, snapshot, field, 0.5), in_plan, shown, range);
    outline_plan(scene.canvas, design, in_plan);
    const Projection upright{{middle, below + scene.layout.upright_pt}, scale};
    const Box cell{middle - 0.5 * wide, below, wide, scene.layout.upright_pt};
    draw_cut(scene.canvas, cell, upright_cut(result.mesh, snapshot, field, 0.0), upright, shown, range);
    frame(scene.canvas, cell, {ink, 0.7});
  }
  const Style name{8.5};
  draw_text(scene.canvas, {scene.box.x, top}, shown.name + ", plan at half height", name, name_width_pt - 6.0);
  draw_text(scene.canvas, {scene.box.x, below}, shown.name + ", upright cut through the middle", name,
            name_width_pt - 6.0);
  return below + scene.layout.upright_pt;
}

}  // namespace

std::vector<std::size_t> telling_snapshots(const forecast::Result& result) {
  std::vector<std::size_t> chosen;
  const auto& snapshots = result.snapshots;
  if (snapshots.empty()) return chosen;
  const double last = snapshots.back().day;
  const double peak = std::clamp(result.summary.peak_day.middle, 0.0, last);
  for (const double wanted :
       {std::min(1.0, 0.5 * peak), peak, std::sqrt(std::max(1.0, peak) * std::max(1.0, last)), last}) {
    const auto nearest = std::min_element(
        snapshots.begin(), snapshots.end(),
        [&](const Snapshot& a, const Snapshot& b) { return std::abs(a.day - wanted) < std::abs(b.day - wanted); });
    const auto index = static_cast<std::size_t>(nearest - snapshots.begin());
    if (std::find(chosen.begin(), chosen.end(), index) == chosen.end()) chosen.push_back(index);
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

double section_figure_height(Canvas& /*canvas*/, double width_pt, const VesselPlan& vessel) {
  const Layout layout = layout_for(width_pt, vessel);
  return head_height_pt + 2.0 * (layout.plan_pt + row_gap_pt + layout.upright_pt) + 14.0 + legend_height_pt;
}

void draw_section_figure(Canvas& canvas, const Box& box, const VesselPlan& vessel, Date start, UnitSystem units) {
  const std::vector<std::size_t> chosen = telling_snapshots(vessel.forecast);
  const Scene scene{canvas, box, vessel, chosen, layout_for(box.width, vessel)};
  for (std::size_t c = 0; c < chosen.size(); ++c) {
    const double day = vessel.forecast.snapshots[chosen[c]].day;
    const double middle = scene.column_x(c) + 0.5 * scene.layout.column_pt;
    draw_label(canvas, {middle, box.y}, "day " + decimal(day, day < 10.0 && day != std::round(day) ? 1 : 0),
               {10.0, Weight::strong}, Across::middle, Down::top);
    draw_label(canvas, {middle, box.y + 13.0}, short_date(after(start, day)), {8.5, Weight::regular, soft},
               Across::middle, Down::top);
  }
  double top = box.y + head_height_pt;
  const std::vector<Shown> fields = shown_fields(units);
  const double bar_width = 0.5 * (box.width - 40.0);
  const double legend_top = box.y + section_figure_height(canvas, box.width, vessel) - legend_height_pt;
  for (std::size_t f = 0; f < fields.size(); ++f) {
    const Span range = range_of(vessel, fields[f], chosen, units);
    top = draw_rows(scene, fields[f], range, top) + 14.0;
    const double x = box.x + static_cast<double>(f) * (bar_width + 40.0);
    draw_legend_bar(canvas, {x + 6.0, legend_top + 24.0, bar_width - 12.0, 9.0}, fields[f], range, units);
  }
}

}  // namespace stillheap::sheet
