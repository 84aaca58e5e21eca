#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/pages.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Frame;

/// Of the line from the wall, so that holes wet the filling, not the cloth; chosen: 50 mm or 2 in.
double inset_m(UnitSystem units) { return units == UnitSystem::us ? 0.0508 : 0.05; }

double path_m(const vessel::Design& design, double inset) {
  return design.footprint == vessel::Footprint::round ? constant::pi * (design.diameter_m - 2.0 * inset)
                                                      : 2.0 * (design.length_m + design.width_m - 4.0 * inset);
}

/// How much of the way round the line goes.
double share_of_round(const vessel::Design& design, const water::Line& pipe, double inset) {
  return pipe.ring || pipe.length_m <= 0.0 ? 1.0 : std::min(1.0, pipe.length_m / path_m(design, inset));
}

/// Places of the holes as shares of the line: evenly between both ends of a ring, a spacing from the inlet otherwise.
std::vector<double> hole_shares(const plan::VesselPlan& vessel, const water::Line& pipe) {
  std::vector<double> shares;
  const int holes = vessel.line_flow.holes;
  shares.reserve(static_cast<std::size_t>(std::max(0, holes)));
  for (int i = 0; i < holes; ++i) shares.push_back(pipe.ring ? (i + 0.5) / holes : (i + 1.0) / holes);
  return shares;
}

void draw_pipe(const Drawing& drawing, double share) {
  const double inset = inset_m(drawing.lengths.system());
  std::vector<Spot> way;
  for (int i = 0; i <= 240; ++i) {
    way.push_back(drawing.on_page.spot(vessel::line_place(drawing.design, inset, share * i / 240.0 * 0.99999).at));
  }
  polyline(drawing.canvas, way, {ink, 1.6});
}

/// Sprays stand halfway between the middle and the line, evenly round, where no channel is.
std::vector<Point> spray_places(const vessel::Design& design, int count, double inset) {
  std::vector<Point> places;
  for (int i = 0; i < count; ++i) {
    const Point at = vessel::line_place(design, inset, (i + 0.5) / count).at;
    Point best{0.55 * at.x_m, 0.55 * at.y_m};
    double widest = -1.0;
    for (int k = 0; k <= 20; ++k) {
      const double share = 0.40 + 0.02 * k;
      const Point here{share * at.x_m, share * at.y_m};
      double clear = 1.0;
      for (const vessel::Channel& channel : design.channels) {
        clear = std::min(clear, distance_m(here, channel.centre) - 0.5 * channel.diameter_m);
      }
      if (std::min(clear, 0.06) > widest + 1e-9) {
        widest = std::min(clear, 0.06);
        best = here;
      }
    }
    places.push_back(best);
  }
  return places;
}

void draw_sprays(const Drawing& drawing, const std::vector<Point>& places) {
  for (const Point& place : places) {
    const Spot at = drawing.on_page.spot(place);
    for (int k = 0; k < 8; ++k) {
      const double angle = constant::pi * k / 4.0;
      line(drawing.canvas, {at.x + 3.0 * std::cos(angle), at.y + 3.0 * std::sin(angle)},
           {at.x + 7.5 * std::cos(angle), at.y + 7.5 * std::sin(angle)}, {accent, 1.0});
    }
    disc(drawing.canvas, at, 2.4, accent);
  }
}

void draw_line_plan(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel,
                    quantity::WorkshopLengths& lengths, double most_pt) {
  const vessel::Design& design = vessel.design;
  const water::Line& pipe = plan.site.water.line;
  const Frame frame = vessel::footprint_frame(design, 0.0);
  const double top = flow.y();
  const Drawing drawing = begin_drawing(flow, design, lengths, frame, {60.0, 12.0, 150.0, 44.0}, most_pt);
  draw_caption(drawing, {flow.left(), top, flow.width(), 14.0}, "Water line on top of the filling, from above");
  draw_wall_plan(drawing, {soft, 1.4});
  for (const vessel::Channel& channel : design.channels) {
    circle(drawing.canvas, drawing.on_page.spot(channel.centre), 0.5 * channel.diameter_m * drawing.on_page.scale_pt_m,
           {soft, 0.8});
  }
  const double inset = inset_m(lengths.system());
  const double share = share_of_round(design, pipe, inset);
  draw_pipe(drawing, share);
  const std::vector<double> holes = hole_shares(vessel, pipe);
  for (const double hole : holes) {
    disc(drawing.canvas, drawing.on_page.spot(vessel::line_place(design, inset, hole * share * 0.99999).at), 2.0,
         accent);
  }
  const std::vector<Point> sprays = spray_places(design, pipe.sprays, inset);
  draw_sprays(drawing, sprays);
  const Spot inlet = drawing.on_page.spot(vessel::line_place(design, inset, 0.0).at);
  const double outside = drawing.spot(0.0, frame.low_m).y;
  line(drawing.canvas, inlet, {inlet.x, outside + 20.0}, {ink, 1.6});
  const Spot valve[] = {{inlet.x - 5.0, outside + 8.0},
                        {inlet.x + 5.0, outside + 16.0},
                        {inlet.x - 5.0, outside + 16.0},
                        {inlet.x + 5.0, outside + 8.0}};
  polyline(drawing.canvas, valve, {ink, 1.0}, true);
  draw_label(drawing.canvas, {inlet.x, outside + 22.0},
             pipe.ring ? "tee and shut-off valve" : "inlet and shut-off valve", style::drawing, Across::middle,
             Down::top);
  std::vector<Callout> notes;
  if (!holes.empty()) {
    const std::size_t at = holes.size() / 3;
    notes.push_back({drawing.on_page.spot(vessel::line_place(design, inset, holes[at] * share * 0.99999).at),
                     std::to_string(holes.size()) + " holes of " +
                         quantity::format(pipe.hole_diameter_m, Dimension::length, lengths.system()) + ", one every " +
                         lengths(pipe.spacing_m) + ", pointing inward and down"});
  }
  if (!sprays.empty()) {
    notes.push_back({drawing.on_page.spot(sprays[sprays.size() / 4]),
                     std::to_string(sprays.size()) + (sprays.size() == 1 ? " spray" : " sprays, evenly round"),
                     accent});
  }
  const double length = pipe.length_m > 0.0 ? pipe.length_m : vessel::perimeter_m(design);
  notes.push_back({drawing.on_page.spot(vessel::line_place(design, inset, 0.31 * share).at),
                   "line: cut " + lengths(length) + ", laid " + lengths(inset) + " inside the wall"});
  const double column = drawing.spot(frame.right_m, 0.0).x + 32.0;
  draw_callouts(drawing.canvas, notes,
                {column, drawing.spot(0.0, frame.high_m).y, std::min(130.0, flow.left() + flow.width() - column),
                 frame.height_m() * drawing.on_page.scale_pt_m + 10.0});
}

}  // namespace

void line_page(Flow& flow, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  flow.start_sheet("Water line", vessel_title(vessel.design));
  quantity::WorkshopLengths lengths(plan.site.units);
  const auto under = [&](Flow& below) {
    below.paragraph(
        std::string("Flush the line before its end is closed, then open it fully: every hole must run. Hang it on cord "
                    "from the brim so that it sinks with the filling.") +
        (plan.site.water.drinking_water ? " It hangs on drinking water: fit a back-flow preventer as local codes ask."
                                        : ""));
    line_fittings(below, plan, vessel);
    state_rounding(below, lengths);
  };
  constexpr double least_share = 0.34;  // of the page for the plan, chosen
  draw_line_plan(flow, plan, vessel, lengths, room_for_drawing(flow, under, least_share));
  under(flow);
}

}  // namespace stillheap::sheet
