#include <algorithm>
#include <cmath>

#include "present/draw/dimension.hpp"
#include "present/sheet/field_view.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Design;

struct View {
  Canvas& canvas;
  const plan::VesselPlan& vessel;
  UnitSystem units;
  Projection on_page;  ///< origin: middle of the base's top
  double half_m = 0.0;
  [[nodiscard]] const Design& design() const { return vessel.design; }
  [[nodiscard]] std::string length(double metres) const { return quantity::format_workshop(metres, units); }
  [[nodiscard]] Box box(double left_m, double right_m, double low_m, double high_m) const {
    const Spot a = on_page.spot({left_m, high_m});
    const Spot b = on_page.spot({right_m, low_m});
    return {a.x, a.y, b.x - a.x, b.y - a.y};
  }
};

void draw_filling(const View& view) {
  fill(view.canvas, view.box(-view.half_m, view.half_m, 0.0, view.design().fill_height_m), wash);
  const Spot a = view.on_page.spot({-view.half_m, view.design().fill_height_m});
  const Spot b = view.on_page.spot({view.half_m, view.design().fill_height_m});
  line(view.canvas, a, b, {ink, 0.8});
}

/// Channels the cut meets stand open; the others are drawn as hidden lines.
void draw_channels(const View& view) {
  const double top = view.design().fill_height_m;
  for (const bool hidden : {true, false}) {
    for (const vessel::Channel& channel : view.design().channels) {
      const double half = 0.5 * channel.diameter_m;
      if ((std::abs(channel.centre.y_m) >= half) != hidden) continue;
      const Box shaft = view.box(channel.centre.x_m - half, channel.centre.x_m + half, 0.0, top);
      const Pen pen = hidden ? Pen{hair, 0.6, {3.0, 2.0}} : Pen{ink, 0.9};
      if (!hidden) fill(view.canvas, shaft, paper_white);
      line(view.canvas, {shaft.x, shaft.y}, {shaft.x, shaft.bottom()}, pen);
      line(view.canvas, {shaft.right(), shaft.y}, {shaft.right(), shaft.bottom()}, pen);
    }
  }
}

void draw_cage(const View& view) {
  const Box cage = view.box(-view.half_m, view.half_m, 0.0, view.design().height_m);
  const Pen wall{ink, view.design().wall == vessel::Wall::open ? 1.4 : 3.0};
  line(view.canvas, {cage.x, cage.y}, {cage.x, cage.bottom()}, wall);
  line(view.canvas, {cage.right(), cage.y}, {cage.right(), cage.bottom()}, wall);
  line(view.canvas, {cage.x, cage.y}, {cage.right(), cage.y}, {ink, 0.6, {2.0, 2.0}});
}

double slat_thickness_pt() { return 4.0; }  // chosen: thickness is not part of the design, shown as a plain strip

void draw_base(const View& view) {
  const Spot left = view.on_page.spot({-view.half_m, 0.0});
  const Spot right = view.on_page.spot({view.half_m, 0.0});
  const double thick = slat_thickness_pt();
  if (view.design().slats.empty()) {
    fill(view.canvas, {left.x, left.y, right.x - left.x, thick}, hair);
  }
  for (const vessel::Slat& slat : view.design().slats) {
    const bool along = std::abs(slat.to.x_m - slat.from.x_m) > std::abs(slat.to.y_m - slat.from.y_m);
    const double middle = 0.5 * (slat.from.x_m + slat.to.x_m);
    const double low = along ? std::min(slat.from.x_m, slat.to.x_m) : middle - 0.5 * slat.width_m;
    const double high = along ? std::max(slat.from.x_m, slat.to.x_m) : middle + 0.5 * slat.width_m;
    const Box strip{view.on_page.spot({low, 0.0}).x, left.y, (high - low) * view.on_page.scale_pt_m, thick};
    fill(view.canvas, strip, wash);
    frame(view.canvas, strip, {ink, 0.7});
  }
}

void draw_ground(const View& view) {
  const double y = view.on_page.spot({0.0, -view.design().base_gap_m}).y + slat_thickness_pt();
  const double left = view.on_page.spot({-view.half_m, 0.0}).x - 16.0;
  const double right = view.on_page.spot({view.half_m, 0.0}).x + 16.0;
  line(view.canvas, {left, y}, {right, y}, {ink, 1.0});
  const int strokes = static_cast<int>((right - left - 6.0) / 8.0);
  for (int i = 0; i <= strokes; ++i) {
    const double x = left + 6.0 + 8.0 * i;
    line(view.canvas, {x, y}, {x - 5.0, y + 5.0}, {soft, 0.5});
  }
}

void draw_air_path(const View& view) {
  const vessel::AirPath& path = view.vessel.air_path;
  if (!std::isfinite(path.length_m) || path.length_m <= 0.0) return;
  const Spot at = view.on_page.spot({path.where.x_m, path.height_m});
  circle(view.canvas, at, path.length_m * view.on_page.scale_pt_m, {accent, 1.0, {4.0, 2.5}});
  line(view.canvas, {at.x - 3.5, at.y}, {at.x + 3.5, at.y}, {accent, 1.2});
  line(view.canvas, {at.x, at.y - 3.5}, {at.x, at.y + 3.5}, {accent, 1.2});
}

void draw_dimensions(const View& view) {
  const Design& design = view.design();
  const auto left = [&](double z) { return view.on_page.spot({-view.half_m, z}); };
  draw_dimension(view.canvas, left(0.0), left(design.fill_height_m), 20.0,
                 "filled " + view.length(design.fill_height_m));
  draw_dimension(view.canvas, left(0.0), left(design.height_m), 42.0,
                 (design.wall == vessel::Wall::open ? "cage " : "wall ") + view.length(design.height_m));
}

std::vector<Callout> callouts_of(const View& view) {
  const Design& design = view.design();
  const vessel::AirPath& path = view.vessel.air_path;
  std::vector<Callout> notes;
  if (std::isfinite(path.length_m) && path.length_m > 0.0) {
    notes.push_back({view.on_page.spot({path.where.x_m, path.height_m}),
                     "farthest from air in the heap: " + view.length(path.length_m) + ", at " +
                         view.length(path.height_m) + " above the base",
                     accent});
  }
  notes.push_back({view.on_page.spot({view.half_m, 0.8 * design.height_m}),
                   design.wall == vessel::Wall::open ? "open wall: mesh lined with breathable cloth" : "closed wall"});
  const Spot under = view.on_page.spot({0.9 * view.half_m, -0.5 * design.base_gap_m});
  if (design.base_gap_m > 0.0) {
    notes.push_back({{under.x, under.y + slat_thickness_pt()},
                     std::string(design.base_open ? "slatted base, open to the air; " : "closed base; ") +
                         view.length(design.base_gap_m) + " free under it"});
  }
  if (design.lining_fold_m > 0.0) {
    notes.push_back({view.on_page.spot({view.half_m, design.height_m}),
                     "lining folded over " + view.length(design.lining_fold_m) + " at top and bottom"});
  }
  return notes;
}

}  // namespace

void draw_upright_view(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel, const Scale& scale,
                       UnitSystem units) {
  View view{canvas, vessel, units, {{}, scale.pt_m}, 0.5 * vessel::across_m(vessel.design)};
  const double half_pt = view.half_m * scale.pt_m;
  view.on_page.origin = {box.x + left_room_pt + half_pt, box.y + 22.0 + vessel.design.height_m * scale.pt_m};
  draw_filling(view);
  draw_channels(view);
  draw_cage(view);
  draw_base(view);
  draw_ground(view);
  draw_air_path(view);
  draw_dimensions(view);
  const double column = view.on_page.origin.x + half_pt + 40.0;
  draw_callouts(canvas, callouts_of(view), {column, box.y + 8.0, box.right() - column, box.height - 30.0});
  const bool us = units == UnitSystem::us;
  const double bar_m = us ? 0.3048 : (scale.denominator > 40.0 ? 1.0 : 0.5);  // one foot, exact; or round metres
  draw_scale_bar(canvas, {box.x + left_room_pt, box.bottom() - 18.0}, scale.pt_m,
                 quantity::format_workshop(bar_m, units) +
                     "; drawn 1 : " + decimal(scale.denominator, scale.denominator == 12.5 ? 1 : 0) + " on " +
                     canvas.paper().name + " printed at full size",
                 bar_m);
}

}  // namespace stillheap::sheet
