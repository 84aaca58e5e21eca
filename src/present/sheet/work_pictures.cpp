#include "present/sheet/work_pictures.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "present/sheet/drawing_parts.hpp"

namespace stillheap::sheet {
namespace {

using vessel::Design;

constexpr Colour earth{0.80, 0.70, 0.56};
constexpr double cloth_margin_m = 0.2;  // chosen: less than the real one, so that the vessel stays large

/// The vessel put into the box, with room above for forms and signs.
Iso fit(const Design& design, const Box& box, const Scene& scene) {
  const bool cloth = scene.base_cloth || scene.cover;
  const double half_width = iso_half_width_m(design, cloth ? cloth_margin_m : 0.0);
  const double half_depth = iso_half_depth_m(design, cloth ? cloth_margin_m : 0.0);
  const double wall = design.height_m * std::max(scene.wall_share, 0.02);
  const double above = std::max({scene.forms_lift >= 0.0 ? 0.3 + scene.forms_lift + design.height_m - wall : 0.0,
                                 scene.sign == Sign::none ? 0.0 : 0.45});
  const double high = wall + above + 2.0 * half_depth + design.base_gap_m;
  const double scale = std::min(box.width / (2.0 * half_width), box.height / high);
  const double slack = 0.5 * (box.height - high * scale);
  return {{box.middle_x(), box.bottom() - slack - (half_depth + design.base_gap_m) * scale}, scale};
}

void draw_arrow(Canvas& canvas, Spot from, Spot to) {
  line(canvas, from, to, {accent, 2.2});
  arrowhead(canvas, to, std::atan2(to.y - from.y, to.x - from.x), 9.0, accent);
}

void draw_turning(Canvas& canvas, Spot centre, double radius) {
  std::vector<Spot> way;
  for (int i = 0; i <= 30; ++i) {
    const double angle = constant::pi * (0.15 + 1.5 * i / 30.0);
    way.push_back({centre.x + radius * std::cos(angle), centre.y - 0.45 * radius * std::sin(angle)});
  }
  polyline(canvas, way, {accent, 2.0});
  arrowhead(canvas, way.back(), std::atan2(way.back().y - way[27].y, way.back().x - way[27].x), 8.0, accent);
}

void draw_sign(Canvas& canvas, const Iso& iso, const Design& design, const Scene& scene) {
  const double level = scene.fill_share * design.fill_height_m;
  const Spot top = iso.spot(0.0, 0.0, std::max(level, scene.wall_share * design.height_m));
  const double step = std::max(0.28 * iso.scale_pt_m, 14.0);
  switch (scene.sign) {
    case Sign::arrow_up: {
      const double reach = 0.3 + scene.forms_lift + design.height_m;
      const Spot at = design.channels.empty()
                          ? top
                          : iso.spot(design.channels.front().centre.x_m, design.channels.front().centre.y_m, reach);
      draw_arrow(canvas, {at.x + 14.0, at.y + 22.0}, {at.x + 14.0, at.y - 4.0});
      return;
    }
    case Sign::turn: {
      const Point c = design.channels.empty() ? Point{} : design.channels.front().centre;
      draw_turning(canvas, iso.spot(c.x_m, c.y_m, design.height_m + 0.18), 13.0);
      return;
    }
    case Sign::probe:
      line(canvas, {top.x, top.y - step}, {top.x, top.y + 0.4 * step}, {ink, 2.4});
      fill(canvas, {top.x - 8.0, top.y - step - 7.0, 16.0, 9.0}, accent);
      return;
    case Sign::level: {
      const Spot c = iso.spot(0.0, 0.0, 0.03);
      const Box body{c.x - 26.0, c.y - 12.0, 52.0, 10.0};
      fill(canvas, body, accent_wash);
      frame(canvas, body, {accent, 1.4});
      circle(canvas, {body.middle_x(), body.middle_y()}, 3.2, {accent, 1.2});
      return;
    }
    case Sign::shower:
      for (int i = -3; i <= 3; ++i) {
        const double x = top.x + 0.25 * i * step;
        line(canvas, {x, top.y - 0.9 * step}, {x - 2.0, top.y - 0.55 * step}, {accent, 1.3});
        line(canvas, {x + 3.0, top.y - 0.45 * step}, {x + 1.0, top.y - 0.15 * step}, {accent, 1.3});
      }
      return;
    case Sign::worms:
      for (int k = 0; k < 6; ++k) {
        const double angle = constant::pi * k / 3.0 + 0.3;
        const Spot at = iso.spot(0.24 * vessel::across_m(design) * std::cos(angle),
                                 0.24 * vessel::deep_m(design) * std::sin(angle), level);
        std::vector<Spot> body;
        for (int i = 0; i <= 10; ++i) body.push_back({at.x - 5.0 + i, at.y + 1.8 * std::sin(0.9 * i)});
        polyline(canvas, body, {accent, 1.6});
      }
      return;
    case Sign::fork: {
      const Spot tip{top.x - 0.4 * step, top.y + 6.0};
      line(canvas, {tip.x + 22.0, tip.y - 1.6 * step}, {tip.x + 6.0, tip.y - 14.0}, {ink, 2.2});
      for (int i = 0; i < 4; ++i)
        line(canvas, {tip.x + 1.0 + 3.5 * i, tip.y - 15.0 + i}, {tip.x - 3.0 + 3.5 * i, tip.y + i}, {ink, 1.2});
      line(canvas, {tip.x + 1.0, tip.y - 15.0}, {tip.x + 11.5, tip.y - 12.0}, {ink, 1.6});
      return;
    }
    case Sign::none:
      return;
  }
}

void draw_scene(Canvas& canvas, const Box& box, const Design& design, const Scene& scene) {
  const Iso iso = fit(design, box, scene);
  if (scene.base) draw_base(canvas, iso, design, 0.0);
  if (scene.base_cloth) draw_cloth(canvas, iso, design, cloth_margin_m, 0.0, true);
  const double wall = scene.wall_share * design.height_m;
  const Skin skin = scene.lining ? Skin::cloth : design.wall == vessel::Wall::open ? Skin::mesh : Skin::boards;
  if (wall > 0.0) draw_wall_behind(canvas, iso, design, 0.0, wall, skin);
  const double level = scene.fill_share * design.fill_height_m;
  const bool forms = scene.forms_lift >= 0.0;
  if (level > 0.0) draw_slab(canvas, iso, design, 0.0, level, level, earth, !forms || scene.one_form_only);
  if (forms) {
    Design shown = design;
    if (scene.one_form_only && !shown.channels.empty()) shown.channels.resize(1);
    draw_pipes(canvas, iso, shown, std::max(level, scene.forms_lift), design.height_m + 0.3 + scene.forms_lift);
  }
  if (wall > 0.0 && !scene.open_front)
    draw_wall_front(canvas, iso, design, 0.0, wall, skin, level > 0.0 || forms ? 0.22 : 0.6);
  if (scene.line) draw_ring_line(canvas, iso, design, std::max(level, 0.0));
  if (scene.cover) draw_cloth(canvas, iso, design, cloth_margin_m, wall, true);
  draw_sign(canvas, iso, design, scene);
}

void draw_tub(Canvas& canvas, const Box& box, double water_share) {
  const Spot tub[] = {{box.x, box.y},
                      {box.x + 0.08 * box.width, box.bottom()},
                      {box.right() - 0.08 * box.width, box.bottom()},
                      {box.right(), box.y}};
  const double y = box.bottom() - water_share * box.height;
  const double in = 0.08 * box.width * (1.0 - water_share);
  const Spot water[] = {{box.x + 0.08 * box.width - in, y},
                        {box.x + 0.08 * box.width, box.bottom()},
                        {box.right() - 0.08 * box.width, box.bottom()},
                        {box.right() - 0.08 * box.width + in, y}};
  fill_polygon(canvas, water, {0.80, 0.87, 0.90});
  polyline(canvas, tub, {ink, 1.4});
}

void draw_lumps(Canvas& canvas, Spot middle, double width, double height) {
  for (int i = 0; i < 24; ++i) {
    // A fixed scatter: the golden angle spreads evenly.
    const double angle = 2.39996 * i;
    const double share = std::sqrt((i + 0.5) / 24.0);
    disc(canvas, {middle.x + 0.5 * width * share * std::cos(angle), middle.y + 0.5 * height * share * std::sin(angle)},
         2.6, earth);
  }
}

}  // namespace

Picture picture_of(const Design& design, const Scene& scene) {
  return [design, scene](Canvas& canvas, const Box& box) { draw_scene(canvas, box, design, scene); };
}

Picture bath_picture() {
  return [](Canvas& canvas, const Box& box) {
    const double width = 0.46 * box.width;
    const Box first{box.x + 2.0, box.middle_y() - 2.0, width, 0.34 * box.height};
    const Box second{box.right() - width - 2.0, box.middle_y() - 2.0, width, 0.34 * box.height};
    draw_tub(canvas, first, 0.8);
    draw_lumps(canvas, {first.middle_x(), first.middle_y() + 3.0}, 0.7 * width, 0.5 * first.height);
    draw_tub(canvas, second, 0.55);
    draw_lumps(canvas, {second.middle_x(), second.y - 16.0}, 0.6 * width, 18.0);
    line(canvas, {second.x + 4.0, second.y - 4.0}, {second.right() - 4.0, second.y - 4.0}, {ink, 1.4, {2.5, 2.0}});
    for (int i = -1; i <= 1; ++i) {
      line(canvas, {second.middle_x() + 10.0 * i, second.y}, {second.middle_x() + 10.0 * i, second.y + 8.0},
           {accent, 1.2});
    }
    draw_arrow(canvas, {first.middle_x(), first.y - 8.0}, {second.x + 2.0, second.y - 18.0});
  };
}

Picture timer_picture() {
  return [](Canvas& canvas, const Box& box) {
    const double radius = 0.36 * std::min(box.width, box.height);
    const Spot c{box.middle_x(), box.middle_y()};
    circle(canvas, c, radius, {ink, 1.8});
    for (int i = 0; i < 12; ++i) {
      const double angle = constant::pi * i / 6.0;
      line(canvas, {c.x + 0.85 * radius * std::cos(angle), c.y + 0.85 * radius * std::sin(angle)},
           {c.x + 0.95 * radius * std::cos(angle), c.y + 0.95 * radius * std::sin(angle)}, {ink, 1.2});
    }
    line(canvas, c, {c.x, c.y - 0.7 * radius}, {ink, 1.6});
    line(canvas, c, {c.x + 0.45 * radius, c.y + 0.2 * radius}, {accent, 2.2});
  };
}

Picture notes_picture() {
  return [](Canvas& canvas, const Box& box) {
    const double high = std::min(0.86 * box.height, box.width);
    const Box board{box.middle_x() - 0.36 * high, box.middle_y() - 0.5 * high, 0.72 * high, high};
    fill(canvas, board, wash);
    frame(canvas, board, {ink, 1.4});
    fill(canvas, {board.middle_x() - 0.14 * high, board.y - 3.0, 0.28 * high, 8.0}, ink);
    for (int i = 0; i < 5; ++i) {
      const double y = board.y + (0.22 + 0.155 * i) * high;
      frame(canvas, {board.x + 0.08 * high, y - 3.5, 7.0, 7.0}, {ink, 0.9});
      line(canvas, {board.x + 0.08 * high + 14.0, y}, {board.right() - 0.08 * high, y}, {soft, 0.9});
      if (i > 2) continue;
      const Spot tick[] = {{board.x + 0.08 * high + 1.0, y - 0.5},
                           {board.x + 0.08 * high + 3.0, y + 3.0},
                           {board.x + 0.08 * high + 8.5, y - 6.0}};
      polyline(canvas, tick, {accent, 1.8});
    }
  };
}

Picture rack_picture() {
  return [](Canvas& canvas, const Box& box) {
    const double length = 0.9 * box.width;
    const double x = box.x + 0.05 * box.width;
    for (int i = 0; i < 4; ++i) {
      const Box pipe{x, box.middle_y() - 30.0 + 15.0 * i, length, 11.0};
      fill(canvas, pipe, wash);
      frame(canvas, pipe, {ink, 1.0});
      circle(canvas, {pipe.right(), pipe.middle_y()}, 5.5, {ink, 1.0});
    }
    for (const double at : {0.15, 0.8}) {
      line(canvas, {x + at * length, box.middle_y() - 36.0}, {x + at * length, box.middle_y() + 36.0}, {accent, 2.0});
    }
  };
}

Picture sieve_picture() {
  return [](Canvas& canvas, const Box& box) {
    const double y = box.y + 0.34 * box.height;
    const Spot left{box.x + 0.14 * box.width, y + 10.0};
    const Spot right{box.right() - 0.14 * box.width, y - 10.0};
    line(canvas, left, right, {ink, 2.0});
    for (int i = 1; i < 12; ++i) {
      const Spot at{std::lerp(left.x, right.x, i / 12.0), std::lerp(left.y, right.y, i / 12.0)};
      line(canvas, at, {at.x, at.y + 5.0}, {ink, 0.8});
    }
    draw_lumps(canvas, {box.middle_x() + 12.0, y - 14.0}, 0.4 * box.width, 14.0);
    const Spot heap[] = {{box.x + 0.12 * box.width, box.bottom() - 10.0},
                         {box.middle_x(), box.bottom() - 0.38 * box.height},
                         {box.right() - 0.12 * box.width, box.bottom() - 10.0}};
    fill_polygon(canvas, heap, earth);
    polyline(canvas, heap, {ink, 1.2}, true);
  };
}

}  // namespace stillheap::sheet
