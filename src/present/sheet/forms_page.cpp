#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"
#include "present/sheet/pattern_words.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Frame;

constexpr double handhold_m = vessel::Allowances{}.form_handhold_m;

/// The outermost ring of three forms and more, which a hoop can hold.
std::optional<RingSeen> held_ring(const vessel::Design& design) {
  if (design.footprint != vessel::Footprint::round) return std::nullopt;
  const std::vector<RingSeen> rings = rings_of(design);
  if (rings.empty() || rings.back().channels.size() < 3) return std::nullopt;
  return rings.back();
}

double thickest_m(const vessel::Design& design) {
  double most = 0.0;
  for (const vessel::Channel& channel : design.channels) most = std::max(most, channel.diameter_m);
  return most;
}

void draw_forms_plan(const Drawing& drawing) {
  for (const vessel::Channel& channel : drawing.design.channels) {
    const double radius = 0.5 * channel.diameter_m * drawing.on_page.scale_pt_m;
    const Spot at = drawing.on_page.spot(channel.centre);
    disc(drawing.canvas, at, radius, wash);
    circle(drawing.canvas, at, radius, {ink, 1.0});
  }
}

/// Each form is tied to the hoop's inside, and the hoop to the wall in four directions.
void draw_hoop(const Drawing& drawing, const RingSeen& ring) {
  const vessel::Design& design = drawing.design;
  const double pipe = design.channels[ring.channels.front()].diameter_m;
  const double inside = vessel::hoop_inside_m(ring.radius_m, pipe);
  const double scale = drawing.on_page.scale_pt_m;
  const Spot o = drawing.on_page.origin;
  for (int i = 0; i < 4; ++i) {
    const double angle = constant::pi * (0.25 + 0.5 * i);
    const auto on = [&](double radius_m) {
      return Spot{o.x + radius_m * scale * std::cos(angle), o.y - radius_m * scale * std::sin(angle)};
    };
    line(drawing.canvas, on(0.5 * inside), on(0.5 * design.diameter_m), {accent, 0.8, {4.0, 2.0}});
  }
  circle(drawing.canvas, o, 0.5 * inside * scale, {accent, 1.8});
  draw_dimension(drawing.canvas, {o.x - 0.5 * inside * scale, o.y}, {o.x + 0.5 * inside * scale, o.y},
                 -(0.5 * design.diameter_m * scale + 14.0), "hoop, inside " + drawing.lengths(inside));
}

/// Two battens a row, one on each side of its forms.
void draw_battens(const Drawing& drawing) {
  std::map<long, std::vector<vessel::Channel>> rows;
  for (const vessel::Channel& channel : drawing.design.channels) {
    rows[std::lround(channel.centre.y_m * 1000.0)].push_back(channel);
  }
  const Frame frame = vessel::footprint_frame(drawing.design, 0.04);
  for (const auto& [where, row] : rows) {
    double most = 0.0;
    for (const vessel::Channel& channel : row) most = std::max(most, channel.diameter_m);
    for (const double side : {-0.5, 0.5}) {
      const double y = row.front().centre.y_m + side * (most + 0.025);
      draw_strip(drawing, {{frame.left_m, y}, {frame.right_m, y}, 0.025}, accent_wash, {accent, 0.8});
    }
  }
  const double first = rows.begin()->second.front().centre.y_m;
  const double edge = -0.5 * drawing.design.width_m;
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, edge), drawing.spot(frame.left_m, first), 14.0,
                 drawing.lengths(first - edge));
  if (rows.size() > 1) {
    const double second = std::next(rows.begin())->second.front().centre.y_m;
    draw_dimension(drawing.canvas, drawing.spot(frame.left_m, first), drawing.spot(frame.left_m, second), 14.0,
                   drawing.lengths(second - first), 13.0);
  }
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, frame.low_m), drawing.spot(frame.right_m, frame.low_m),
                 -14.0, "battens at least " + drawing.lengths(frame.width_m()));
}

/// Where a figure lies across the page, and how high it may be.
struct Place {
  double from_share = 0.0, to_share = 1.0;  ///< of the page's width
  double most_pt = 0.0;
};

Box beside(const Flow& flow, const Place& place, const Box& room) {
  return {place.from_share * flow.width() + room.x, room.y, (1.0 - place.to_share) * flow.width() + room.width,
          room.height};
}

Box caption_at(const Flow& flow, const Place& place, double top) {
  return {flow.left() + place.from_share * flow.width(), top, (place.to_share - place.from_share) * flow.width(), 14.0};
}

void draw_plan(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, const Place& place) {
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, vessel.design, lengths, vessel::footprint_frame(vessel.design, 0.05),
                                        beside(flow, place, {24.0, 8.0, 24.0, 34.0}), place.most_pt);
  draw_caption(drawing, caption_at(flow, place, top), "From above");
  draw_wall_plan(drawing, {soft, 1.2});
  if (const auto ring = held_ring(vessel.design)) {
    draw_forms_plan(drawing);
    draw_hoop(drawing, *ring);
  } else {
    draw_battens(drawing);
    draw_forms_plan(drawing);
  }
  draw_channel_numbers(drawing.canvas, vessel.design, drawing.on_page);
}

void draw_side(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, const Place& place) {
  const vessel::Design& design = vessel.design;
  const double half = 0.5 * vessel::across_m(design);
  const double tall = design.height_m + handhold_m;
  const double foot = tall - vessel::form_length_m(design);  // on the stop under the deck
  const Frame frame{-half, -design.base_gap_m - vessel::deck_thickness_m, half, tall};
  const double top = flow.y();
  const Drawing drawing =
      begin_drawing(flow, design, lengths, frame, beside(flow, place, {70.0, 36.0, 142.0, 14.0}), place.most_pt);
  draw_caption(drawing, caption_at(flow, place, top), "From the front");
  draw_ground_line(drawing, -half - 0.1, half + 0.1, frame.low_m);
  sheet::fill(drawing.canvas, drawing.box({-half, -vessel::deck_thickness_m, half, 0.0}), deck);
  sheet::frame(drawing.canvas, drawing.box({-half, -vessel::deck_thickness_m, half, 0.0}), {ink, 0.7});
  draw_bearers(drawing);
  for (const double x : {-half, half})
    line(drawing.canvas, drawing.spot(x, 0.0), drawing.spot(x, design.height_m), {ink, 1.4});
  line(drawing.canvas, drawing.spot(-half, design.height_m), drawing.spot(half, design.height_m),
       {soft, 0.6, {3.0, 2.0}});
  for (const vessel::Channel& channel : design.channels) {
    const double r = 0.5 * channel.diameter_m;
    const Box pipe = drawing.box({channel.centre.x_m - r, foot, channel.centre.x_m + r, tall});
    sheet::fill(drawing.canvas, pipe, wash);
    sheet::frame(drawing.canvas, pipe, {ink, 0.8});
  }
  const auto ring = held_ring(design);
  const double reach = ring ? 0.5 * vessel::hoop_inside_m(ring->radius_m, thickest_m(design)) : half + 0.04;
  const Box hoop = drawing.box({-reach, design.height_m + 0.02, reach, design.height_m + 0.05});
  sheet::fill(drawing.canvas, hoop, accent);
  draw_dimension(drawing.canvas, drawing.spot(-half, foot), drawing.spot(-half, tall), 44.0,
                 "form " + lengths(tall - foot));
  draw_dimension(drawing.canvas, drawing.spot(-half, design.height_m), drawing.spot(-half, tall), 18.0,
                 lengths(handhold_m));
  const double noted = draw_callouts(
      drawing.canvas,
      {{{hoop.right(), hoop.middle_y()}, ring ? "hoop, level with the brim" : "battens, on the brim", accent},
       {drawing.spot(design.channels.front().centre.x_m, 0.01),
        design.base_open ? "feet through the deck, on the stops under their holes" : "feet on their marks"}},
      {drawing.spot(half, 0.0).x + 34.0, drawing.spot(0.0, tall).y, 120.0,
       drawing.spot(0.0, 0.0).y - drawing.spot(0.0, tall).y + 20.0});
  flow.space(std::max(0.0, noted - flow.y()));
}

/// A round vessel's two figures stand side by side, a long one's below each other.
void draw_figures(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, double room_pt) {
  const double top = flow.y();
  if (!held_ring(vessel.design)) {
    constexpr double plan_share = 0.48;  // of the room for both figures, chosen
    draw_plan(flow, vessel, lengths, {0.0, 1.0, plan_share * room_pt});
    return draw_side(flow, vessel, lengths, {0.0, 1.0, room_pt - (flow.y() - top)});
  }
  constexpr double plan_width = 0.36;  // of the page, chosen
  draw_plan(flow, vessel, lengths, {0.0, plan_width, room_pt});
  const double plan_pt = flow.y() - top;
  flow.space(-plan_pt);
  draw_side(flow, vessel, lengths, {plan_width, 1.0, room_pt});
  flow.space(std::max(0.0, plan_pt - (flow.y() - top)));
}

void hold_words(Flow& flow, const vessel::Design& design, quantity::WorkshopLengths& lengths) {
  const auto ring = held_ring(design);
  if (!ring) {
    flow.paragraph(
        "Lay two battens over the brim for each row, one on each side of its forms, and lash them to the wall and to "
        "each form. Check that every form stands plumb both ways.");
    return;
  }
  const double inside = vessel::hoop_inside_m(ring->radius_m, design.channels[ring->channels.front()].diameter_m);
  flow.paragraph("Bend a hoop of rod or thin pipe from " + lengths(constant::pi * inside) +
                 " of length, measured along its inside, and tie the forms of the ring to its inside, each on its "
                 "mark; tie any other form across the hoop. Four cords to the wall keep it in the middle.");
}

}  // namespace

void forms_page(Flow& flow, const plan::VesselPlan& vessel, UnitSystem units, double kept_pt) {
  const vessel::Design& design = vessel.design;
  if (design.channels.empty()) return;
  flow.start_sheet("Forms and what holds them", vessel_title(design));
  quantity::WorkshopLengths lengths(units);
  const auto under = [&](Flow& below) {
    hold_words(below, design, lengths);
    state_rounding(below, lengths);
    below.space(kept_pt);
  };
  draw_figures(flow, vessel, lengths, room_for_drawing(flow, under, 0.45));
  hold_words(flow, design, lengths);
  state_rounding(flow, lengths);
}

}  // namespace stillheap::sheet
