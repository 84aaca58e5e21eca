#include "present/sheet/field_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::Snapshot;

void draw_cut(Canvas& canvas, const Box& cell, const std::vector<ValueTriangle>& cut, const Projection& view,
              const ShownField& shown, Span scale) {
  paint_field(canvas, cell, cut, view, shown.map, scale.low, scale.high);
  const std::vector<Segment> pieces = level_line(cut, shown.line_at);
  for (const Pen& pen : {Pen{paper_white, 2.2}, Pen{ink, 0.9}}) {
    for (const Segment& piece : pieces) line(canvas, view.spot(piece.from), view.spot(piece.to), pen);
  }
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

}  // namespace

std::vector<ShownField> shown_fields(UnitSystem units) {
  return {{"Temperature", &Snapshot::temperature_c, Dimension::temperature, "", FieldMap::inferno, 55.0,
           quantity::format(55.0, Dimension::temperature, units)},
          {"Oxygen", &Snapshot::oxygen, Dimension::fraction, "% by volume", FieldMap::viridis, 0.05, "5 %"},
          // 40 %: lower end of the range in NRAES-54 1992, table 2.1.
          {"Moisture", &Snapshot::moisture_wet, Dimension::fraction, "% of wet mass", FieldMap::water, 0.40, "40 %"}};
}

Span shared_scale(const std::vector<Snapshot>& snapshots, const ShownField& shown, UnitSystem units) {
  if (shown.field == &Snapshot::oxygen) return {0.0, 0.21, 0.05};
  double low = 1e9;
  double high = -1e9;
  for (const Snapshot& snapshot : snapshots) {
    for (const float value : snapshot.*shown.field) {
      low = std::min(low, static_cast<double>(value));
      high = std::max(high, static_cast<double>(value));
    }
  }
  const AxisUnit unit = axis_unit(shown.dimension, units);
  Span round = round_span(unit.shown(low), unit.shown(high), 9);
  if (shown.dimension == Dimension::fraction)
    round = {std::max(0.0, round.low), std::min(100.0, round.high), round.step};
  return {(round.low - unit.offset) / unit.scale, (round.high - unit.offset) / unit.scale, round.step / unit.scale};
}

void draw_plan_cell(Canvas& canvas, const Box& box, const vessel::Design& design, const forecast::FieldMesh& mesh,
                    const Snapshot& snapshot, const ShownField& shown, Span scale, double scale_pt_m) {
  const Projection view{{box.middle_x(), box.middle_y()}, scale_pt_m};
  const double wide = vessel::across_m(design) * scale_pt_m;
  const double deep = vessel::deep_m(design) * scale_pt_m;
  draw_cut(canvas, {box.middle_x() - 0.5 * wide, box.middle_y() - 0.5 * deep, wide, deep},
           plan_cut(mesh, snapshot, snapshot.*shown.field, 0.5), view, shown, scale);
  outline_plan(canvas, design, view);
}

void draw_upright_cell(Canvas& canvas, const Box& box, const vessel::Design& design, const forecast::FieldMesh& mesh,
                       const Snapshot& snapshot, const ShownField& shown, Span scale, double scale_pt_m) {
  const double wide = vessel::across_m(design) * scale_pt_m;
  const double high = design.height_m * scale_pt_m;
  const Box cell{box.middle_x() - 0.5 * wide, box.bottom() - high, wide, high};
  const Projection view{{box.middle_x(), box.bottom()}, scale_pt_m};
  draw_cut(canvas, cell, upright_cut(mesh, snapshot, snapshot.*shown.field, 0.0), view, shown, scale);
  frame(canvas, cell, {ink, 0.7});
}

void draw_colour_bar(Canvas& canvas, const Box& box, const ShownField& shown, Span scale, UnitSystem units) {
  constexpr int strips = 128;
  cairo_set_antialias(canvas.cairo(), CAIRO_ANTIALIAS_NONE);  // no seams between the strips
  const Box bar{box.x + 6.0, box.y + 13.0, box.width - 12.0, 9.0};
  for (int i = 0; i < strips; ++i) {
    const double x = bar.x + bar.width * i / strips;
    fill(canvas, {x, bar.y, bar.width / strips + 0.3, bar.height}, map_colour(shown.map, (i + 0.5) / strips));
  }
  cairo_set_antialias(canvas.cairo(), CAIRO_ANTIALIAS_DEFAULT);
  frame(canvas, bar, {ink, 0.6});
  const AxisUnit unit = axis_unit(shown.dimension, units);
  const Span axis{unit.shown(scale.low), unit.shown(scale.high), scale.step * unit.scale};
  const double pt_per_unit = bar.width / (axis.high - axis.low);
  const std::vector<Tick> all = ticks_of(axis);
  std::vector<double> widths(all.size());
  std::transform(all.begin(), all.end(), widths.begin(),
                 [&](const Tick& tick) { return measure(canvas, tick.label, {8.0}).width; });
  for (const Tick& tick : thin_out(all, widths, pt_per_unit, 4.0)) {
    const double x = bar.x + (tick.at - axis.low) * pt_per_unit;
    line(canvas, {x, bar.bottom()}, {x, bar.bottom() + 3.0}, {ink, 0.6});
    draw_label(canvas, {x, bar.bottom() + 3.0}, tick.label, {8.0}, Across::middle, Down::top);
  }
  const std::string words =
      shown.name + ", " + (shown.unit_words.empty() ? unit.label : shown.unit_words) + "; line: " + shown.line_words;
  draw_label(canvas, {bar.x, bar.y - 1.0}, words, {8.5}, Across::left, Down::bottom);
}

std::string day_words(double day) {
  return "day " + decimal(day, day < 10.0 && std::abs(day - std::round(day)) > 0.05 ? 1 : 0);
}

}  // namespace stillheap::sheet
