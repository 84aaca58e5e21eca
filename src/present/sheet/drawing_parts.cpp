#include "present/sheet/drawing_parts.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {

Drawing begin_drawing(Flow& flow, const vessel::Design& design, quantity::WorkshopLengths& lengths,
                      const vessel::Frame& frame, const Box& room, double most_height_pt) {
  // `room` holds what dimensions need: x left, width right, y above, height below.
  const double caption = 20.0;
  const double free_width = flow.width() - room.x - room.width;
  const double free_height = most_height_pt - room.y - room.height - caption;
  const Scale scale = round_scale(lengths.system(), frame.width_m(), frame.height_m(), free_width, free_height);
  const double height = frame.height_m() * scale.pt_m;
  // An upright dimension's label may be longer than a low figure is high.
  constexpr double half_label_pt = 42.0;
  const double above = std::max(room.y, half_label_pt - 0.5 * height);
  const double below = std::max(room.height, half_label_pt - 0.5 * height);
  const Box area = flow.take(height + above + below + caption);
  flow.holds_drawing();
  const double slack = std::max(0.0, free_width - frame.width_m() * scale.pt_m);
  const double left = area.x + room.x + 0.25 * slack;
  return {flow.canvas(),
          design,
          lengths,
          {{left - frame.left_m * scale.pt_m, area.y + caption + above + frame.high_m * scale.pt_m}, scale.pt_m},
          scale.denominator,
          {flow.canvas(), "Figure"}};
}

double room_for_drawing(const Flow& flow, const Flow::Draw& under, double least_share) {
  constexpr double rounding_pt = 14.0;  // the drawing may be what makes its sheet state a rounding
  return std::max(flow.room() - flow.height_of(under) - rounding_pt, least_share * flow.room());
}

namespace {

/// A place beside the circle: away from the vessel's middle, else to the right; turned on by quarters until it is free.
Spot number_place(const vessel::Design& design, const vessel::Channel& channel, Spot at, double reach, int quarters) {
  const double from_middle_m = std::hypot(channel.centre.x_m, channel.centre.y_m);
  const bool ringed = design.footprint == vessel::Footprint::round && from_middle_m > channel.diameter_m;
  const double angle =
      (ringed ? std::atan2(channel.centre.y_m, channel.centre.x_m) : 0.0) + 0.5 * constant::pi * quarters;
  return {at.x + reach * std::cos(angle), at.y - reach * std::sin(angle)};
}

}  // namespace

void draw_channel_numbers(Canvas& canvas, const vessel::Design& design, const Projection& on_page) {
  constexpr double clear_pt = 8.5;  // from the circle to the number's middle
  const Style number{style::drawing.size_pt, Weight::strong};
  std::vector<Box> taken;
  for (std::size_t i = 0; i < design.channels.size(); ++i) {
    const vessel::Channel& channel = design.channels[i];
    const double reach = 0.5 * channel.diameter_m * on_page.scale_pt_m + clear_pt;
    const Size size = measure(canvas, std::to_string(i + 1), number);
    for (int quarters = 0; quarters < 4; ++quarters) {  // where none is free the table has its place
      const Spot at = number_place(design, channel, on_page.spot(channel.centre), reach, quarters);
      const Box box{at.x - 0.5 * size.width, at.y - 0.5 * size.height, size.width, size.height};
      if (std::any_of(taken.begin(), taken.end(), [&](const Box& other) { return overlap(box, other); })) continue;
      draw_turned(canvas, at, std::to_string(i + 1), number, 0.0, true);
      taken.push_back(box);
      break;
    }
  }
}

void draw_wall_plan(const Drawing& drawing, const Pen& pen) {
  if (drawing.design.footprint == vessel::Footprint::round) {
    circle(drawing.canvas, drawing.on_page.origin, 0.5 * drawing.design.diameter_m * drawing.on_page.scale_pt_m, pen);
  } else {
    frame(drawing.canvas, drawing.box(vessel::footprint_frame(drawing.design, 0.0)), pen);
  }
}

void draw_strip(const Drawing& drawing, const vessel::Slat& slat, Colour colour, const Pen& pen) {
  const double length = distance_m(slat.from, slat.to);
  if (length <= 0.0) return;
  const double nx = -(slat.to.y_m - slat.from.y_m) / length * 0.5 * slat.width_m;
  const double ny = (slat.to.x_m - slat.from.x_m) / length * 0.5 * slat.width_m;
  const Spot corners[] = {
      drawing.spot(slat.from.x_m + nx, slat.from.y_m + ny), drawing.spot(slat.to.x_m + nx, slat.to.y_m + ny),
      drawing.spot(slat.to.x_m - nx, slat.to.y_m - ny), drawing.spot(slat.from.x_m - nx, slat.from.y_m - ny)};
  fill_polygon(drawing.canvas, corners, colour);
  polyline(drawing.canvas, corners, pen, true);
}

void draw_bearers(const Drawing& drawing) {
  const vessel::Design& design = drawing.design;
  const double top = -vessel::deck_thickness_m;
  for (const vessel::Slat& bearer : design.bearers) {
    const bool end_on = std::abs(bearer.to.x_m - bearer.from.x_m) < 1e-9;
    const double from = end_on ? bearer.from.x_m - 0.5 * bearer.width_m : bearer.from.x_m;
    const double to = end_on ? bearer.from.x_m + 0.5 * bearer.width_m : bearer.to.x_m;
    const Box box = drawing.box({from, top - design.base_gap_m, to, top});
    fill(drawing.canvas, box, wash);
    frame(drawing.canvas, box, {ink, 0.8});
  }
}

void draw_ground_line(const Drawing& drawing, double left_m, double right_m, double y_m) {
  const Spot from = drawing.spot(left_m, y_m);
  const Spot to = drawing.spot(right_m, y_m);
  line(drawing.canvas, from, to, {ink, 1.0});
  const int strokes = static_cast<int>(std::ceil((to.x - from.x - 6.0) / 8.0));
  for (int i = 0; i < strokes; ++i) {
    const double x = from.x + 6.0 + 8.0 * i;
    line(drawing.canvas, {x, from.y}, {x - 5.0, from.y + 5.0}, {soft, 0.5});
  }
}

void draw_caption(const Drawing& drawing, const Box& area, const std::string& words) {
  const std::string scale = "drawn 1 : " + decimal(drawing.denominator, drawing.denominator == 12.5 ? 1 : 0);
  draw_line_of_text(drawing.canvas, {area.x, area.y}, words + "  (" + scale + ")",
                    {style::drawing.size_pt, Weight::strong}, area.width);
}

void state_rounding(Flow& flow, const quantity::WorkshopLengths& lengths) {
  const std::string rounding = lengths.statement();
  flow.paragraph((rounding.empty() ? "" : rounding + " ") +
                     "Drawings are to scale when printed at 100 %, but do not scale from them: use the figures.",
                 style::note);
}

}  // namespace stillheap::sheet
