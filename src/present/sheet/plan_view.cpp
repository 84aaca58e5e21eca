#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "present/draw/dimension.hpp"
#include "present/sheet/drawing_parts.hpp"
#include "present/sheet/field_view.hpp"
#include "present/sheet/pattern_words.hpp"
#include "present/sheet/vessel_figure.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Design;
using vessel::Footprint;

struct View {
  Canvas& canvas;
  const plan::VesselPlan& vessel;
  UnitSystem units;
  Projection on_page;
  double half_wide_pt = 0.0, half_deep_pt = 0.0;
  [[nodiscard]] const Design& design() const { return vessel.design; }
  [[nodiscard]] std::string length(double metres) const { return quantity::format_workshop(metres, units); }
};

void draw_slats(const View& view) {
  for (const vessel::Slat& slat : view.design().slats) {
    const double length = distance_m(slat.from, slat.to);
    if (length <= 0.0) continue;
    const double nx = -(slat.to.y_m - slat.from.y_m) / length * 0.5 * slat.width_m;
    const double ny = (slat.to.x_m - slat.from.x_m) / length * 0.5 * slat.width_m;
    const Spot corners[] = {view.on_page.spot({slat.from.x_m + nx, slat.from.y_m + ny}),
                            view.on_page.spot({slat.to.x_m + nx, slat.to.y_m + ny}),
                            view.on_page.spot({slat.to.x_m - nx, slat.to.y_m - ny}),
                            view.on_page.spot({slat.from.x_m - nx, slat.from.y_m - ny})};
    fill_polygon(view.canvas, corners, wash);
    polyline(view.canvas, corners, {hair, 0.5}, true);
  }
}

void draw_wall(const View& view) {
  const Pen pen{ink, view.design().wall == vessel::Wall::open ? 1.4 : 3.0};
  if (view.design().footprint == Footprint::round) {
    circle(view.canvas, view.on_page.origin, view.half_wide_pt, pen);
  } else {
    frame(view.canvas,
          {view.on_page.origin.x - view.half_wide_pt, view.on_page.origin.y - view.half_deep_pt,
           2.0 * view.half_wide_pt, 2.0 * view.half_deep_pt},
          pen);
  }
}

void draw_axes(const View& view) {
  const Pen axis{soft, 0.4, {9.0, 2.5, 1.5, 2.5}};
  const Spot o = view.on_page.origin;
  line(view.canvas, {o.x - view.half_wide_pt - 6.0, o.y}, {o.x + view.half_wide_pt + 6.0, o.y}, axis);
  line(view.canvas, {o.x, o.y - view.half_deep_pt - 6.0}, {o.x, o.y + view.half_deep_pt + 6.0}, axis);
}

void draw_channels(const View& view) {
  for (const vessel::Channel& channel : view.design().channels) {
    const Spot centre = view.on_page.spot(channel.centre);
    const double radius = 0.5 * channel.diameter_m * view.on_page.scale_pt_m;
    disc(view.canvas, centre, radius, paper_white);
    circle(view.canvas, centre, radius, {ink, 1.0});
  }
}

void draw_air_path(const View& view) {
  const vessel::AirPath& path = view.vessel.air_path;
  if (!std::isfinite(path.plan_length_m)) return;
  const Spot at = view.on_page.spot(path.where);
  circle(view.canvas, at, path.plan_length_m * view.on_page.scale_pt_m, {accent, 1.0, {4.0, 2.5}});
  line(view.canvas, {at.x - 3.5, at.y}, {at.x + 3.5, at.y}, {accent, 1.2});
  line(view.canvas, {at.x, at.y - 3.5}, {at.x, at.y + 3.5}, {accent, 1.2});
}

/// The neighbours whose middle direction is nearest to the wanted one.
std::size_t pair_towards(const View& view, const RingSeen& ring, double wanted_rad) {
  std::size_t best = 0;
  double most = -2.0;
  for (std::size_t i = 0; i < ring.channels.size(); ++i) {
    const double middle = polar(view.design().channels[ring.channels[i]].centre).angle_rad + 0.5 * ring.step_rad;
    if (std::cos(middle - wanted_rad) > most) {
      most = std::cos(middle - wanted_rad);
      best = i;
    }
  }
  return best;
}

/// Radius, chord and angle of the outermost ring, each on its own side of the wall.
void dimension_ring(const View& view, const RingSeen& ring) {
  const double scale = view.on_page.scale_pt_m;
  const Spot o = view.on_page.origin;
  const double radius_pt = ring.radius_m * scale;
  circle(view.canvas, o, radius_pt, {soft, 0.5, {9.0, 2.5, 1.5, 2.5}});
  const std::size_t high = pair_towards(view, ring, 0.25 * constant::pi);
  const double angle_middle = polar(view.design().channels[ring.channels[high]].centre).angle_rad + 0.5 * ring.step_rad;
  const bool angle_on_top = ring.channels.size() > 2 && std::sin(angle_middle) > 0.7;  // then it needs the room there
  const double rise = view.half_deep_pt + (angle_on_top ? 31.0 : 16.0);
  draw_dimension(view.canvas, {o.x - radius_pt, o.y}, {o.x, o.y}, rise, "ring radius " + view.length(ring.radius_m));
  if (!ring.even || ring.channels.size() < 3) return;
  const std::size_t n = ring.channels.size();
  const auto centre = [&](std::size_t i) { return view.design().channels[ring.channels[i % n]].centre; };
  const std::size_t low = pair_towards(view, ring, 1.08 * constant::pi);
  const double to_chord = radius_pt * std::cos(0.5 * ring.step_rad);
  draw_dimension(view.canvas, view.on_page.spot(centre(low)), view.on_page.spot(centre(low + 1)),
                 -(view.half_wide_pt - to_chord + 14.0), view.length(ring.chord_m));
  const double from = polar(centre(high)).angle_rad;
  const double outside = view.half_wide_pt + 12.0;
  for (const double angle : {from, from + ring.step_rad}) {
    line(view.canvas, o, {o.x + (outside + 4.0) * std::cos(angle), o.y - (outside + 4.0) * std::sin(angle)},
         {soft, 0.45});
  }
  draw_angle(view.canvas, o, outside, from, from + ring.step_rad, degrees(ring.step_rad));
}

/// In how many rows the labels of a chain must stand so that none runs into the next; 0: the gaps are too tight, and
/// the setting-out table has them all.
int label_rows(const View& view, const std::vector<double>& places) {
  std::vector<double> middle;
  std::vector<double> width;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    middle.push_back(0.5 * (places[i] + places[i + 1]) * view.on_page.scale_pt_m);
    width.push_back(measure(view.canvas, view.length(places[i + 1] - places[i]), style::drawing).width);
  }
  for (const std::size_t rows : {1U, 2U}) {
    bool fits = true;
    for (std::size_t i = 0; i + rows < middle.size(); ++i) {
      fits = fits && middle[i + rows] - middle[i] >= 0.5 * (width[i] + width[i + rows]) + 4.0;
    }
    if (fits) return static_cast<int>(rows);
  }
  return 0;
}

/// A chain of dimensions over the different places of the channels along one side, where labels have room.
void dimension_chain(const View& view, bool along_x) {
  std::vector<double> places;
  for (const vessel::Channel& channel : view.design().channels) {
    places.push_back(along_x ? channel.centre.x_m : channel.centre.y_m);
  }
  places = distinct(places);
  if (places.empty()) return;
  const double half_m = 0.5 * (along_x ? view.design().length_m : view.design().width_m);
  places.insert(places.begin(), -half_m);
  places.push_back(half_m);
  const int rows = label_rows(view, places);
  if (rows == 0) return;
  const double second_row = rows == 2 ? 13.0 : 0.0;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    const std::string label = view.length(places[i + 1] - places[i]);
    const double lift = i % 2 == 1 ? second_row : 0.0;
    if (along_x) {
      draw_dimension(view.canvas, view.on_page.spot({places[i], 0.5 * view.design().width_m}),
                     view.on_page.spot({places[i + 1], 0.5 * view.design().width_m}), 14.0, label, lift);
    } else {
      draw_dimension(view.canvas, view.on_page.spot({-0.5 * view.design().length_m, places[i]}),
                     view.on_page.spot({-0.5 * view.design().length_m, places[i + 1]}), 14.0, label, lift);
    }
  }
}

void dimension_outside(const View& view) {
  const Spot o = view.on_page.origin;
  const bool round = view.design().footprint == Footprint::round;
  const double bottom = o.y + view.half_deep_pt;
  const std::string across = round ? "inside diameter " : "inside length ";
  draw_dimension(view.canvas, {o.x - view.half_wide_pt, round ? o.y : bottom},
                 {o.x + view.half_wide_pt, round ? o.y : bottom}, round ? -(view.half_deep_pt + 30.0) : -18.0,
                 across + view.length(vessel::across_m(view.design())));
  if (!round) {
    draw_dimension(view.canvas, {o.x - view.half_wide_pt, o.y + view.half_deep_pt},
                   {o.x - view.half_wide_pt, o.y - view.half_deep_pt}, 50.0,
                   "inside width " + view.length(view.design().width_m));
  }
}

std::vector<Callout> callouts_of(const View& view) {
  std::vector<Callout> notes;
  const auto& channels = view.design().channels;
  if (!channels.empty()) {
    const auto right = std::max_element(channels.begin(), channels.end(), [](const auto& a, const auto& b) {
      return a.centre.x_m - 0.2 * a.centre.y_m < b.centre.x_m - 0.2 * b.centre.y_m;
    });
    const auto [thin, thick] = std::minmax_element(
        channels.begin(), channels.end(), [](const auto& a, const auto& b) { return a.diameter_m < b.diameter_m; });
    const bool alike = thick->diameter_m - thin->diameter_m < 5e-4;
    const double edge = 0.5 * right->diameter_m;
    notes.push_back({view.on_page.spot({right->centre.x_m + edge, right->centre.y_m}),
                     std::to_string(channels.size()) + (channels.size() == 1 ? " channel" : " channels") + ", form " +
                         view.length(right->diameter_m) + " outside" + (alike ? "" : " (others: see table)")});
  }
  const vessel::AirPath& path = view.vessel.air_path;
  if (std::isfinite(path.plan_length_m)) {
    notes.push_back({view.on_page.spot(path.where),
                     "farthest from air: " + view.length(path.plan_length_m) + " in plan, " +
                         view.length(path.length_m) + " in the heap",
                     accent});
  }
  if (!view.design().slats.empty()) {
    const auto low =
        std::max_element(view.design().slats.begin(), view.design().slats.end(), [](const auto& a, const auto& b) {
          return a.to.x_m + b.from.y_m * 0.7 + b.to.y_m * 0.7 < b.to.x_m + a.from.y_m * 0.7 + a.to.y_m * 0.7;
        });
    notes.push_back(
        {view.on_page.spot({0.93 * low->to.x_m + 0.07 * low->from.x_m, 0.93 * low->to.y_m + 0.07 * low->from.y_m}),
         std::to_string(view.design().slats.size()) + " slats, " + view.length(low->width_m) + " wide"});
  }
  return notes;
}

}  // namespace

void draw_plan_view(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel, const Scale& scale,
                    UnitSystem units) {
  View view{canvas, vessel, units, {{}, scale.pt_m}};
  view.half_wide_pt = 0.5 * vessel::across_m(vessel.design) * scale.pt_m;
  view.half_deep_pt = 0.5 * vessel::deep_m(vessel.design) * scale.pt_m;
  view.on_page.origin = {box.x + left_room_pt + view.half_wide_pt, box.y + 46.0 + view.half_deep_pt};
  draw_slats(view);
  draw_axes(view);
  draw_wall(view);
  draw_channels(view);
  draw_air_path(view);
  dimension_outside(view);
  if (vessel.design.footprint == Footprint::rectangular) {
    dimension_chain(view, true);
    dimension_chain(view, false);
  } else if (const std::vector<RingSeen> rings = rings_of(vessel.design); !rings.empty()) {
    dimension_ring(view, rings.back());
  }
  const double column =
      view.on_page.origin.x + view.half_wide_pt + (vessel.design.footprint == Footprint::round ? 58.0 : 40.0);
  draw_callouts(canvas, callouts_of(view), {column, box.y + 10.0, box.right() - column, box.height - 30.0});
  draw_channel_numbers(canvas, vessel.design, view.on_page);  // last: their ground hides what runs under them
}

}  // namespace stillheap::sheet
