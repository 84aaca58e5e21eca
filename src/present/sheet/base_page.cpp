#include <algorithm>
#include <cmath>

#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Frame;

constexpr double bearer_m = 0.038;  // chosen: thickness of a bearer on the drawing

/// A chain from the edge over the first `most` strips, along their own order.
void dimension_strips(const Drawing& drawing, std::vector<double> places, double edge_m, std::size_t most,
                      bool along_x) {
  constexpr double offset_pt = 14.0;
  std::sort(places.begin(), places.end());
  const Frame frame = vessel::footprint_frame(drawing.design, 0.0);
  const auto at = [&](double place) {
    return along_x ? drawing.spot(place, frame.low_m) : drawing.spot(frame.left_m, place);
  };
  const double side = along_x ? -offset_pt : offset_pt;
  std::vector<double> stops{edge_m};
  stops.insert(stops.end(), places.begin(),
               places.begin() + static_cast<std::ptrdiff_t>(std::min(most, places.size())));
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    if (stops[i + 1] - stops[i] < 1e-4) continue;
    draw_dimension(drawing.canvas, at(stops[i]), at(stops[i + 1]), side, drawing.lengths(stops[i + 1] - stops[i]),
                   i % 2 == 1 ? 10.0 : 0.0);
  }
}

void draw_plan(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths) {
  const vessel::Design& design = vessel.design;
  const Frame frame = vessel::footprint_frame(design, 0.0);
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, frame, {80.0, 10.0, 130.0, 66.0}, 0.52 * flow.room());
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Base from above");
  const std::vector<vessel::Slat> bearers = vessel::bearers_of(design, {}, bearer_m);
  if (design.slats.empty()) sheet::fill(drawing.canvas, drawing.box(frame), deck);
  for (const vessel::Slat& slat : design.slats) draw_strip(drawing, slat, deck, {ink, 0.6});
  for (const vessel::Slat& bearer : bearers) {
    for (const double side : {-0.5, 0.5}) {
      const bool along_y = std::abs(bearer.to.x_m - bearer.from.x_m) < 1e-9;
      const double dx = along_y ? side * bearer.width_m : 0.0;
      const double dy = along_y ? 0.0 : side * bearer.width_m;
      line(drawing.canvas, drawing.spot(bearer.from.x_m + dx, bearer.from.y_m + dy),
           drawing.spot(bearer.to.x_m + dx, bearer.to.y_m + dy), {soft, 0.7, {5.0, 2.5}});
    }
  }
  draw_wall_plan(drawing, {ink, 1.4});
  for (const vessel::Channel& channel : design.channels) {
    const Spot at = drawing.on_page.spot(channel.centre);
    const double radius = 0.5 * channel.diameter_m * drawing.on_page.scale_pt_m;
    disc(drawing.canvas, at, radius, paper_white);
    circle(drawing.canvas, at, radius, {ink, 1.0});
  }
  const bool slats_x = vessel::slats_along_x(design);
  std::vector<double> slat_places, bearer_places;
  for (const auto& slat : design.slats) slat_places.push_back(slats_x ? slat.from.y_m : slat.from.x_m);
  for (const auto& bearer : bearers) bearer_places.push_back(slats_x ? bearer.from.x_m : bearer.from.y_m);
  if (!slat_places.empty()) dimension_strips(drawing, slat_places, slats_x ? frame.low_m : frame.left_m, 2, !slats_x);
  if (!bearer_places.empty()) {
    std::sort(bearer_places.begin(), bearer_places.end());
    dimension_strips(drawing, {std::next(bearer_places.begin()), bearer_places.end()}, bearer_places.front(), 1,
                     slats_x);
  }
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, frame.low_m), drawing.spot(frame.right_m, frame.low_m),
                 -44.0, lengths(frame.width_m()));
  draw_dimension(drawing.canvas, drawing.spot(frame.left_m, frame.low_m), drawing.spot(frame.left_m, frame.high_m),
                 48.0, lengths(frame.height_m()));
  std::vector<Callout> notes;
  if (!design.slats.empty()) {
    const vessel::Slat& slat = design.slats[design.slats.size() / 2];
    notes.push_back({drawing.spot(std::lerp(slat.from.x_m, slat.to.x_m, slats_x ? 0.96 : 0.5),
                                  std::lerp(slat.from.y_m, slat.to.y_m, slats_x ? 0.5 : 0.96)),
                     std::to_string(design.slats.size()) + " slats, " + lengths(slat.width_m) +
                         " wide; dimensions to their middles"});
  } else {
    notes.push_back({drawing.spot(0.45 * across_m(design), 0.1 * deep_m(design)),
                     design.base_open ? "slatted deck or pallet deck, open under each channel" : "closed base"});
  }
  if (!bearers.empty()) {
    const vessel::Slat& last = bearers.back();
    notes.push_back({drawing.spot(0.9 * last.from.x_m + 0.1 * last.to.x_m, 0.9 * last.from.y_m + 0.1 * last.to.y_m),
                     std::to_string(bearers.size()) +
                         " bearers under the deck, dashed, evenly, the outer ones flush; dimension between middles"});
  }
  if (!design.channels.empty() && design.base_open) {
    const auto right = std::max_element(design.channels.begin(), design.channels.end(),
                                        [](const auto& a, const auto& b) { return a.centre.x_m < b.centre.x_m; });
    notes.push_back(
        {drawing.spot(right->centre.x_m + 0.35 * right->diameter_m, right->centre.y_m - 0.35 * right->diameter_m),
         "hole under each channel: from the drilling template"});
  }
  const double column = drawing.spot(frame.right_m, 0.0).x + 30.0;
  draw_callouts(drawing.canvas, notes,
                {column, drawing.spot(0.0, frame.high_m).y, std::min(120.0, flow.left() + flow.width() - column),
                 frame.height_m() * drawing.on_page.scale_pt_m + 30.0});
}

/// The base from the front, with a straight board and a level on it.
void draw_levelling(Flow& flow, const plan::VesselPlan& vessel, quantity::WorkshopLengths& lengths, double level_m) {
  const vessel::Design& design = vessel.design;
  const double half = 0.5 * across_m(design);
  const double gap = design.base_gap_m;
  const Frame frame{-half - 0.08, -gap - 0.05, half + 0.08, 0.26};
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, frame, {60.0, 8.0, 130.0, 46.0}, 0.7 * flow.room());
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Levelling, from the front");
  draw_ground_line(drawing, frame.left_m, frame.right_m, -gap - 0.02);
  for (const vessel::Slat& bearer : vessel::bearers_of(design, {}, bearer_m)) {
    const bool end_on = std::abs(bearer.to.x_m - bearer.from.x_m) < 1e-9;
    const double from = end_on ? bearer.from.x_m - 0.5 * bearer_m : -half;
    const double to = end_on ? bearer.from.x_m + 0.5 * bearer_m : half;
    sheet::fill(drawing.canvas, drawing.box({from, -gap - 0.02, to, -0.02}), wash);
    sheet::frame(drawing.canvas, drawing.box({from, -gap - 0.02, to, -0.02}), {ink, 0.8});
  }
  sheet::fill(drawing.canvas, drawing.box({-half, -0.02, half, 0.0}), deck);
  sheet::frame(drawing.canvas, drawing.box({-half, -0.02, half, 0.0}), {ink, 0.8});
  const Box board = drawing.box({-0.95 * half, 0.0, 0.95 * half, 0.06});
  sheet::frame(drawing.canvas, board, {ink, 0.8});
  const Box level = drawing.box({-0.3, 0.06, 0.3, 0.12});
  sheet::fill(drawing.canvas, level, accent_wash);
  sheet::frame(drawing.canvas, level, {accent, 1.0});
  circle(drawing.canvas, {level.middle_x(), level.middle_y()}, 0.32 * level.height, {accent, 0.9});
  if (gap > 0.0) {
    draw_dimension(drawing.canvas, drawing.spot(-half, -gap - 0.02), drawing.spot(-half, -0.02), 20.0, lengths(gap));
  }
  draw_callouts(drawing.canvas,
                {{{board.right() - 8.0, board.middle_y()}, "straight board"},
                 {{level.right() - 4.0, level.middle_y()}, "level; turn it end for end and read again", accent},
                 {drawing.spot(half, -gap - 0.02), "firm ground, topsoil and roots taken off"}},
                {drawing.spot(frame.right_m, 0.0).x + 22.0, drawing.spot(0.0, 0.26).y - 10.0, 110.0, 120.0});
  constexpr double notes_pt = 122.0;
  flow.space(std::max(0.0, notes_pt - (flow.y() - top)));
  flow.paragraph(
      "Level it both ways and along both diagonals, to " + lengths(level_m) +
      " over the whole base (chosen), "
      "by packing under the bearers, never by wedging under the wall. A leaning vessel loads one side of its "
      "wall. Read it again a week after filling, and have ground that gives way judged by somebody who may.");
}

}  // namespace

void base_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  flow.start_sheet("Base and levelling", vessel_title(vessel.design));
  quantity::WorkshopLengths lengths(plan.site.units);
  draw_plan(flow, vessel, lengths);
  draw_levelling(flow, vessel, lengths, plan.site.units == UnitSystem::us ? 0.25 * 0.0254 : 0.006);
  flow.paragraph(
      "The base carries the full wet weight (see the loads): use sound timber, and for a bought pallet keep to the "
      "load its maker states.");
  state_rounding(flow, lengths);
}

}  // namespace stillheap::sheet
