#include "present/sheet/iso.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"
#include "present/sheet/drawing_parts.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Design;
using vessel::Footprint;

const double along = std::cos(constant::pi / 6.0);
constexpr double down = 0.5;

bool is_round(const Design& design) { return design.footprint == Footprint::round; }

/// The outline's left end over the front (or over the back) to its right end, where the silhouette stands upright.
std::vector<Spot> half_outline(const Iso& iso, const Design& design, double z_m, bool front) {
  if (!is_round(design)) {
    const double a = 0.5 * design.length_m;
    const double b = 0.5 * design.width_m;
    const Spot middle = front ? iso.spot(a, -b, z_m) : iso.spot(-a, b, z_m);
    return {iso.spot(-a, -b, z_m), middle, iso.spot(a, b, z_m)};
  }
  std::vector<Spot> spots;
  constexpr int steps = 48;
  for (int i = 0; i <= steps; ++i) {
    const double turn = constant::pi * i / steps;
    const double angle = -0.75 * constant::pi + (front ? turn : -turn);
    spots.push_back(
        iso.spot(0.5 * design.diameter_m * std::cos(angle), 0.5 * design.diameter_m * std::sin(angle), z_m));
  }
  return spots;
}

std::vector<Spot> band(const std::vector<Spot>& low, const std::vector<Spot>& high) {
  std::vector<Spot> both = low;
  both.insert(both.end(), high.rbegin(), high.rend());
  return both;
}

void draw_net(Canvas& canvas, const Iso& iso, const Design& design, double z_m, double height_m, bool front,
              Skin skin) {
  const Pen wire{hair, 0.45};
  const int rows = skin == Skin::boards ? 7 : 10;
  for (int i = 1; i < rows; ++i) polyline(canvas, half_outline(iso, design, z_m + height_m * i / rows, front), wire);
  if (skin == Skin::boards) return;
  const std::vector<Spot> low = half_outline(iso, design, z_m, front);
  const double rise = height_m * iso.scale_pt_m;
  for (std::size_t i = 0; i + 1 < low.size(); ++i) {
    const int parts = is_round(design) ? 1 : 9;
    if (is_round(design) && i % 3 != 0) continue;
    for (int k = 0; k < parts; ++k) {
      const double share = static_cast<double>(k) / parts;
      const Spot at{std::lerp(low[i].x, low[i + 1].x, share), std::lerp(low[i].y, low[i + 1].y, share)};
      line(canvas, at, {at.x, at.y - rise}, wire);
    }
  }
}

Colour colour_of(Skin skin) {
  if (skin == Skin::cloth) return wash;
  return skin == Skin::filling ? Colour{0.86, 0.78, 0.66} : paper_white;
}

void draw_half(Canvas& canvas, const Iso& iso, const Design& design, double z_m, double height_m, bool front, Skin skin,
               double opacity) {
  const std::vector<Spot> wall =
      band(half_outline(iso, design, z_m, front), half_outline(iso, design, z_m + height_m, front));
  fill_polygon(canvas, wall, colour_of(skin), opacity);
  if (skin == Skin::mesh || skin == Skin::boards) draw_net(canvas, iso, design, z_m, height_m, front, skin);
  polyline(canvas, wall, {ink, 0.9}, true);
}

std::vector<Spot> square(const Iso& iso, const Design& design, double margin_m, double z_m) {
  const vessel::Frame f = vessel::footprint_frame(design, margin_m);
  return {iso.spot(f.left_m, f.low_m, z_m), iso.spot(f.right_m, f.low_m, z_m), iso.spot(f.right_m, f.high_m, z_m),
          iso.spot(f.left_m, f.high_m, z_m)};
}

void draw_holes(Canvas& canvas, const Iso& iso, const Design& design, double z_m) {
  for (const vessel::Channel& channel : design.channels) {
    const std::vector<Spot> hole = iso_circle(iso, channel.centre, 0.5 * channel.diameter_m, z_m);
    fill_polygon(canvas, hole, {0.30, 0.28, 0.26});
    polyline(canvas, hole, {ink, 0.6}, true);
  }
}

/// A bar with upright sides, its top at z.
void draw_bar(Canvas& canvas, const Iso& iso, const vessel::Slat& bar, double z_m, double thick_m, Colour colour) {
  const double length = distance_m(bar.from, bar.to);
  if (length <= 0.0) return;
  const double nx = -(bar.to.y_m - bar.from.y_m) / length * 0.5 * bar.width_m;
  const double ny = (bar.to.x_m - bar.from.x_m) / length * 0.5 * bar.width_m;
  const Point corners[] = {{bar.from.x_m + nx, bar.from.y_m + ny},
                           {bar.to.x_m + nx, bar.to.y_m + ny},
                           {bar.to.x_m - nx, bar.to.y_m - ny},
                           {bar.from.x_m - nx, bar.from.y_m - ny}};
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = corners[i];
    const Point b = corners[(i + 1) % 4];
    const Spot side[] = {iso.spot(a.x_m, a.y_m, z_m), iso.spot(b.x_m, b.y_m, z_m),
                         iso.spot(b.x_m, b.y_m, z_m - thick_m), iso.spot(a.x_m, a.y_m, z_m - thick_m)};
    fill_polygon(canvas, side, colour);
    polyline(canvas, side, {ink, 0.5}, true);
  }
  std::vector<Spot> top;
  for (const Point& p : corners) top.push_back(iso.spot(p.x_m, p.y_m, z_m));
  fill_polygon(canvas, top, colour);
  polyline(canvas, top, {ink, 0.6}, true);
}

/// Farther from the viewer first.
std::vector<vessel::Slat> from_behind(std::vector<vessel::Slat> bars) {
  const auto near = [](const vessel::Slat& bar) { return bar.from.x_m + bar.to.x_m - bar.from.y_m - bar.to.y_m; };
  std::stable_sort(bars.begin(), bars.end(), [&](const auto& a, const auto& b) { return near(a) < near(b); });
  return bars;
}

}  // namespace

Spot Iso::spot(double x_m, double y_m, double z_m) const noexcept {
  return {origin.x + (x_m + y_m) * along * scale_pt_m, origin.y + ((x_m - y_m) * down - z_m) * scale_pt_m};
}

double iso_half_width_m(const Design& design, double margin_m) noexcept {
  const vessel::Frame f = vessel::footprint_frame(design, margin_m);
  return (f.right_m + f.high_m) * along;
}

double iso_half_depth_m(const Design& design, double margin_m) noexcept {
  const vessel::Frame f = vessel::footprint_frame(design, margin_m);
  return (f.right_m + f.high_m) * down;
}

std::vector<Spot> iso_circle(const Iso& iso, Point centre, double radius_m, double z_m) {
  std::vector<Spot> spots;
  constexpr int corners = 72;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * constant::pi * i / corners;
    spots.push_back(iso.spot(centre.x_m + radius_m * std::cos(angle), centre.y_m + radius_m * std::sin(angle), z_m));
  }
  return spots;
}

std::vector<Spot> iso_outline(const Iso& iso, const Design& design, double margin_m, double z_m) {
  if (is_round(design)) return iso_circle(iso, {}, 0.5 * design.diameter_m + margin_m, z_m);
  return square(iso, design, margin_m, z_m);
}

void draw_slab(Canvas& canvas, const Iso& iso, const Design& design, double margin_m, double z_m, double thick_m,
               Colour colour, bool holes) {
  if (thick_m > 0.0) {
    const std::vector<Spot> side =
        band(half_outline(iso, design, z_m - thick_m, true), half_outline(iso, design, z_m, true));
    fill_polygon(canvas, side, colour);
    polyline(canvas, side, {ink, 0.8}, true);
  }
  const std::vector<Spot> top = iso_outline(iso, design, margin_m, z_m);
  fill_polygon(canvas, top, colour);
  polyline(canvas, top, {ink, 0.8}, true);
  if (holes) draw_holes(canvas, iso, design, z_m);
}

void draw_cloth(Canvas& canvas, const Iso& iso, const Design& design, double margin_m, double z_m, bool holes) {
  const std::vector<Spot> cloth = square(iso, design, margin_m, z_m);
  fill_polygon(canvas, cloth, wash);
  polyline(canvas, cloth, {ink, 0.9}, true);
  if (holes) draw_holes(canvas, iso, design, z_m);
}

void draw_base(Canvas& canvas, const Iso& iso, const Design& design, double z_m) {
  constexpr double deck_m = vessel::deck_thickness_m;
  for (const vessel::Slat& bearer : from_behind(design.bearers)) {
    draw_bar(canvas, iso, bearer, z_m - deck_m, design.base_gap_m, wash);
  }
  if (design.slats.empty()) {
    draw_cloth(canvas, iso, design, 0.0, z_m, false);
    const std::vector<Spot> top = square(iso, design, 0.0, z_m);
    fill_polygon(canvas, top, deck);
    polyline(canvas, top, {ink, 0.8}, true);
  }
  for (const vessel::Slat& slat : from_behind(design.slats)) draw_bar(canvas, iso, slat, z_m, deck_m, deck);
  if (design.base_open) draw_holes(canvas, iso, design, z_m);
}

void draw_wall_behind(Canvas& canvas, const Iso& iso, const Design& design, double z_m, double height_m, Skin skin) {
  draw_half(canvas, iso, design, z_m, height_m, false, skin, 1.0);
}

void draw_wall_front(Canvas& canvas, const Iso& iso, const Design& design, double z_m, double height_m, Skin skin,
                     double opacity) {
  draw_half(canvas, iso, design, z_m, height_m, true, skin, opacity);
}

void draw_pipes(Canvas& canvas, const Iso& iso, const Design& design, double low_m, double high_m) {
  std::vector<vessel::Channel> pipes = design.channels;
  std::stable_sort(pipes.begin(), pipes.end(), [](const auto& a, const auto& b) {
    return a.centre.x_m - a.centre.y_m < b.centre.x_m - b.centre.y_m;
  });
  for (const vessel::Channel& pipe : pipes) {
    Design one;
    one.diameter_m = pipe.diameter_m;
    const Spot shift = iso.spot(pipe.centre.x_m, pipe.centre.y_m, 0.0);
    const Iso moved{shift, iso.scale_pt_m};
    const std::vector<Spot> side = band(half_outline(moved, one, low_m, true), half_outline(moved, one, high_m, true));
    fill_polygon(canvas, side, {0.93, 0.91, 0.87});
    polyline(canvas, side, {ink, 0.8}, true);
    const std::vector<Spot> mouth = iso_circle(moved, {}, 0.5 * pipe.diameter_m, high_m);
    fill_polygon(canvas, mouth, {0.55, 0.52, 0.48});
    polyline(canvas, mouth, {ink, 0.8}, true);
  }
}

void draw_ring_line(Canvas& canvas, const Iso& iso, const Design& design, double z_m) {
  const std::vector<Spot> way = iso_outline(iso, design, -0.05, z_m);
  polyline(canvas, way, {accent, 2.0}, true);
}

}  // namespace stillheap::sheet
