#include "present/template/template_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "core/quantity/workshop.hpp"
#include "present/sheet/pattern_words.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr double text_m = 0.0042;         // chosen: 12 pt, read from standing height over a deck
constexpr double holes_margin_m = 0.020;  // chosen: room for the strokes beyond the holes
constexpr double whole_margin_m = 0.030;  // chosen

struct Maker {
  TemplateDrawing& drawing;
  const vessel::Design& design;
  quantity::WorkshopLengths lengths;

  void line(Point from, Point to, TemplateLayer layer) { drawing.lines.push_back({from, to, layer}); }
  void text(Point at, const std::string& words, double height_m = text_m, double angle_rad = 0.0) {
    drawing.texts.push_back({at, height_m, angle_rad, words});
  }
};

Point on_circle(double radius_m, double angle_rad) {
  return {radius_m * std::cos(angle_rad), radius_m * std::sin(angle_rad)};
}

Point between(Point a, Point b, double share) {
  return {std::lerp(a.x_m, b.x_m, share), std::lerp(a.y_m, b.y_m, share)};
}

/// Turned so that it reads from below or from the right.
double upright(double angle_rad) {
  while (angle_rad > 0.5 * constant::pi - 1e-9) angle_rad -= constant::pi;
  while (angle_rad < -0.5 * constant::pi - 1e-9) angle_rad += constant::pi;
  return angle_rad;
}

/// Each hole with a cross in its middle, its number in one quarter and its width in the one below.
void add_holes(Maker& make) {
  for (std::size_t i = 0; i < make.design.channels.size(); ++i) {
    const vessel::Channel& channel = make.design.channels[i];
    const double radius = 0.5 * channel.diameter_m;
    const Point c = channel.centre;
    make.drawing.circles.push_back({c, radius, TemplateLayer::hole});
    const double arm = 0.3 * radius;
    make.line({c.x_m - arm, c.y_m}, {c.x_m + arm, c.y_m}, TemplateLayer::hole);
    make.line({c.x_m, c.y_m - arm}, {c.x_m, c.y_m + arm}, TemplateLayer::hole);
    const double tall = std::min(1.8 * text_m, 0.26 * radius);
    make.text({c.x_m - 0.5 * radius, c.y_m + 0.42 * radius}, std::to_string(i + 1), tall);
    make.text({c.x_m, c.y_m - 0.58 * radius}, make.lengths(channel.diameter_m), std::min(text_m, 0.17 * radius));
  }
}

void add_centre_lines(Maker& make) {
  const vessel::Frame& whole = make.drawing.whole;
  make.line({whole.left_m, 0.0}, {whole.right_m, 0.0}, TemplateLayer::centre);
  make.line({0.0, whole.low_m}, {0.0, whole.high_m}, TemplateLayer::centre);
  make.text({whole.right_m - 0.02, text_m}, "x", 1.4 * text_m);
  make.text({-text_m, whole.high_m - 0.02}, "y", 1.4 * text_m);
}

/// A ring's circle, a radius to every hole, the chord and the angle between neighbours.
void add_ring(Maker& make, const RingSeen& ring, double angle_radius_m) {
  make.drawing.circles.push_back({{}, ring.radius_m, TemplateLayer::ring});
  const std::size_t n = ring.channels.size();
  for (std::size_t k = 0; k < n; ++k) {
    const vessel::Channel& here = make.design.channels[ring.channels[k]];
    const vessel::Channel& next = make.design.channels[ring.channels[(k + 1) % n]];
    make.line({}, here.centre, TemplateLayer::ring);
    if (n == 2 && k == 1) continue;
    const double chord = distance_m(here.centre, next.centre);
    if (n > 2) make.line(here.centre, next.centre, TemplateLayer::ring);
    const double angle = polar(here.centre).angle_rad;
    double step = polar(next.centre).angle_rad - angle;
    if (step <= 1e-9) step += 2.0 * constant::pi;
    const double direction = std::atan2(next.centre.y_m - here.centre.y_m, next.centre.x_m - here.centre.x_m);
    // Beside the line, on its outer side, in the middle of what the two holes leave of it.
    const double low = 0.5 * here.diameter_m / chord;
    const double share = 0.5 * (low + 1.0 - 0.5 * next.diameter_m / chord);
    const Point middle = between(here.centre, next.centre, share);
    const Point out = on_circle(0.9 * text_m, direction - 0.5 * constant::pi);
    make.text({middle.x_m + out.x_m, middle.y_m + out.y_m}, make.lengths(chord), text_m, upright(direction));
    make.text(on_circle(angle_radius_m, angle + 0.5 * step), degrees(step), text_m);
  }
  const vessel::Channel& first = make.design.channels[ring.channels.front()];
  const double direction = polar(first.centre).angle_rad;
  const double along = 0.5 * (angle_radius_m + ring.radius_m - 0.5 * first.diameter_m);
  const Point side = on_circle(0.9 * text_m, direction + 0.5 * constant::pi);
  const Point at = on_circle(along, direction);
  make.text({at.x_m + side.x_m, at.y_m + side.y_m}, "radius " + make.lengths(ring.radius_m), 0.8 * text_m,
            upright(direction));
}

void add_rings(Maker& make) {
  double clear = 0.02;  // of the middle, for the angles
  for (const vessel::Channel& channel : make.design.channels) {
    if (polar(channel.centre).radius_m < 0.001) clear = 0.5 * channel.diameter_m + 0.012;
  }
  for (const RingSeen& ring : rings_of(make.design)) {
    add_ring(make, ring, clear + 0.35 * std::max(0.0, ring.radius_m - clear - 0.05));
    clear = ring.radius_m + 0.06;
  }
}

/// Lines through the holes of each row and column, and the spacing between neighbours of a row.
void add_rows(Maker& make) {
  std::vector<double> xs, ys;
  for (const vessel::Channel& channel : make.design.channels) {
    xs.push_back(channel.centre.x_m);
    ys.push_back(channel.centre.y_m);
  }
  const vessel::Frame& holes = make.drawing.holes;
  for (const double x : distinct(xs)) make.line({x, holes.low_m}, {x, holes.high_m}, TemplateLayer::ring);
  for (const double y : distinct(ys)) make.line({holes.left_m, y}, {holes.right_m, y}, TemplateLayer::ring);
  for (const vessel::Channel& here : make.design.channels) {
    const vessel::Channel* right = nullptr;
    const vessel::Channel* up = nullptr;
    for (const vessel::Channel& other : make.design.channels) {
      const double dx = other.centre.x_m - here.centre.x_m;
      const double dy = other.centre.y_m - here.centre.y_m;
      if (std::abs(dy) < 0.001 && dx > 0.001 && (right == nullptr || other.centre.x_m < right->centre.x_m))
        right = &other;
      if (std::abs(dx) < 0.001 && dy > 0.001 && (up == nullptr || other.centre.y_m < up->centre.y_m)) up = &other;
    }
    if (right != nullptr) {
      const Point middle = between(here.centre, right->centre, 0.5);
      make.text({middle.x_m, middle.y_m + 0.9 * text_m}, make.lengths(distance_m(here.centre, right->centre)));
    }
    if (up != nullptr) {
      const Point middle = between(here.centre, up->centre, 0.5);
      make.text({middle.x_m - 0.9 * text_m, middle.y_m}, make.lengths(distance_m(here.centre, up->centre)), text_m,
                0.5 * constant::pi);
    }
  }
}

void add_rectangle(Maker& make, const vessel::Frame& frame, TemplateLayer layer) {
  const Point corners[] = {{frame.left_m, frame.low_m},
                           {frame.right_m, frame.low_m},
                           {frame.right_m, frame.high_m},
                           {frame.left_m, frame.high_m}};
  for (std::size_t i = 0; i < 4; ++i) make.line(corners[i], corners[(i + 1) % 4], layer);
}

void add_surroundings(Maker& make) {
  if (make.design.footprint == vessel::Footprint::round) {
    make.drawing.circles.push_back({{}, 0.5 * make.design.diameter_m, TemplateLayer::wall});
  } else {
    add_rectangle(make, vessel::footprint_frame(make.design, 0.0), TemplateLayer::wall);
  }
  add_rectangle(make, vessel::footprint_frame(make.design, make.drawing.cloth_beyond_m), TemplateLayer::cloth);
  for (const vessel::Slat& slat : make.design.slats) {
    const double length = distance_m(slat.from, slat.to);
    if (length <= 0.0) continue;
    const double nx = -(slat.to.y_m - slat.from.y_m) / length * 0.5 * slat.width_m;
    const double ny = (slat.to.x_m - slat.from.x_m) / length * 0.5 * slat.width_m;
    for (const double side : {1.0, -1.0}) {
      make.line({slat.from.x_m + side * nx, slat.from.y_m + side * ny},
                {slat.to.x_m + side * nx, slat.to.y_m + side * ny}, TemplateLayer::slat);
    }
  }
}

}  // namespace

std::string layer_name(TemplateLayer layer) {
  switch (layer) {
    case TemplateLayer::hole:
      return "HOLES";
    case TemplateLayer::centre:
      return "CENTRE";
    case TemplateLayer::ring:
      return "SETTING-OUT";
    case TemplateLayer::wall:
      return "WALL";
    case TemplateLayer::slat:
      return "SLATS";
    case TemplateLayer::cloth:
      return "CLOTH";
    case TemplateLayer::note:
      break;
  }
  return "NOTES";
}

TemplateDrawing template_drawing(const vessel::Design& design, UnitSystem units) {
  TemplateDrawing drawing;
  drawing.vessel = design.name;
  drawing.units = units;
  drawing.cloth_beyond_m = vessel::Allowances{}.cloth_beyond_m;
  drawing.holes = vessel::channels_frame(design, holes_margin_m);
  drawing.whole = vessel::footprint_frame(design, whole_margin_m);
  Maker make{drawing, design, quantity::WorkshopLengths(units)};
  add_surroundings(make);
  add_centre_lines(make);
  if (design.footprint == vessel::Footprint::round) {
    add_rings(make);
  } else {
    add_rows(make);
  }
  add_holes(make);
  drawing.worst_rounding_m = make.lengths.worst_error_m();
  return drawing;
}

}  // namespace stillheap::sheet
