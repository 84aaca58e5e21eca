#include "present/sheet/pressure_figure.hpp"

#include <algorithm>
#include <cmath>

#include "present/draw/dimension.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double pressure_room_pt = 150.0;  ///< what the greatest pressure takes

struct Frame {
  Spot foot;           ///< where wall and base meet, on the side of the pressures
  double scale_pt_m;   ///< of heights and widths
  double scale_pt_pa;  ///< of pressures
};

Frame frame_of(const Box& box, const plan::VesselPlan& vessel) {
  const double tall_m = vessel.design.height_m + vessel.design.base_gap_m;
  const double room_pt = 0.46 * box.width - left_room_pt;
  const double scale = std::min((box.height - 26.0) / tall_m, room_pt / vessel::across_m(vessel.design));
  const double most_pa = std::max(vessel.loads.side_pressure_no_friction_pa, 1.0);
  return {{box.x + left_room_pt + vessel::across_m(vessel.design) * scale,
           box.bottom() - 14.0 - vessel.design.base_gap_m * scale},
          scale,
          pressure_room_pt / most_pa};
}

void draw_vessel(Canvas& canvas, const Frame& frame, const vessel::Design& design) {
  const double wide = vessel::across_m(design) * frame.scale_pt_m;
  const double fill_pt = design.fill_height_m * frame.scale_pt_m;
  const double tall = design.height_m * frame.scale_pt_m;
  fill(canvas, {frame.foot.x - wide, frame.foot.y - fill_pt, wide, fill_pt}, wash);
  const Spot outline[] = {{frame.foot.x - wide, frame.foot.y - tall},
                          {frame.foot.x - wide, frame.foot.y},
                          {frame.foot.x, frame.foot.y},
                          {frame.foot.x, frame.foot.y - tall}};
  polyline(canvas, outline, {ink, 1.1});
  const double ground_y = frame.foot.y + design.base_gap_m * frame.scale_pt_m;
  line(canvas, {frame.foot.x - wide - 14.0, ground_y}, {frame.foot.x + pressure_room_pt + 14.0, ground_y}, {soft, 0.8});
}

std::vector<Spot> pressure_line(const Frame& frame, const plan::VesselPlan& vessel, double density_kg_m3,
                                const vessel::WallFriction& friction) {
  constexpr int steps = 24;
  const vessel::Design& design = vessel.design;
  const double hydraulic_m = 4.0 * vessel::footprint_area_m2(design) / vessel::perimeter_m(design);
  std::vector<Spot> spots;
  for (int i = 0; i <= steps; ++i) {
    const double depth_m = design.fill_height_m * i / steps;
    const double pressure_pa = vessel::janssen(density_kg_m3, hydraulic_m, depth_m, friction).horizontal_pa;
    spots.push_back({frame.foot.x + pressure_pa * frame.scale_pt_pa,
                     frame.foot.y - (design.fill_height_m - depth_m) * frame.scale_pt_m});
  }
  return spots;
}

void draw_arrows(Canvas& canvas, const Frame& frame, const std::vector<Spot>& spots) {
  for (std::size_t i = 6; i < spots.size(); i += 6) {
    if (spots[i].x - frame.foot.x < 8.0) continue;
    line(canvas, {frame.foot.x, spots[i].y}, spots[i], {soft, 0.5});
    arrowhead(canvas, spots[i], 0.0, 5.0, soft);
  }
}

}  // namespace

void draw_pressure_figure(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel,
                          const vessel::WallFriction& friction, UnitSystem units) {
  const Frame frame = frame_of(box, vessel);
  const double density = vessel.blend_soaked.bulk_density_kg_m3;
  draw_vessel(canvas, frame, vessel.design);
  const std::vector<Spot> helped = pressure_line(frame, vessel, density, friction);
  const std::vector<Spot> alone = pressure_line(frame, vessel, density, {0.0, friction.pressure_ratio});
  draw_arrows(canvas, frame, alone);
  polyline(canvas, alone, {accent, 1.3});
  polyline(canvas, helped, {ink, 1.0, {4.0, 3.0}});
  const double wide = vessel::across_m(vessel.design) * frame.scale_pt_m;
  const double left = frame.foot.x - wide;
  draw_dimension(canvas, {left, frame.foot.y}, {left, frame.foot.y - vessel.design.fill_height_m * frame.scale_pt_m},
                 20.0, quantity::format_workshop(vessel.design.fill_height_m, units) + " filled");
  const auto pressure = [&](double value) { return quantity::format_ground(value, units); };
  draw_callouts(canvas,
                {{{0.5 * (alone[8].x + alone[9].x), 0.5 * (alone[8].y + alone[9].y)},
                  "side pressure, wall does not help: " + pressure(vessel.loads.side_pressure_no_friction_pa) +
                      " at the bottom; judged by this",
                  accent},
                 {helped[18], "side pressure, wall helps (Janssen): " + pressure(vessel.loads.side_pressure_pa), ink}},
                {frame.foot.x + pressure_room_pt + 22.0, box.y + 8.0,
                 box.right() - frame.foot.x - pressure_room_pt - 22.0, box.height - 30.0});
}

}  // namespace stillheap::sheet
