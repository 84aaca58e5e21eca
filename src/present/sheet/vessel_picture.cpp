#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "present/sheet/vessel_figure.hpp"

namespace stillheap::sheet {
namespace {

constexpr double tilt = 0.34;  // chosen: how far plan depth is squeezed, a view from well above eye height

struct Slant {
  Spot origin;
  double scale = 1.0;
  [[nodiscard]] Spot spot(double x, double y, double z) const {
    return {origin.x + x * scale, origin.y - (y * tilt + z) * scale};
  }
};

std::vector<Spot> rim(const Slant& slant, const vessel::Design& design, double z) {
  std::vector<Spot> spots;
  if (design.footprint == vessel::Footprint::rectangular) {
    const double a = 0.5 * design.length_m;
    const double b = 0.5 * design.width_m;
    return {slant.spot(-a, -b, z), slant.spot(a, -b, z), slant.spot(a, b, z), slant.spot(-a, b, z)};
  }
  constexpr int corners = 72;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2.0 * constant::pi * i / corners;
    spots.push_back(
        slant.spot(0.5 * design.diameter_m * std::cos(angle), 0.5 * design.diameter_m * std::sin(angle), z));
  }
  return spots;
}

/// The front half of the wall, from the left edge to the right one.
std::vector<Spot> front(const Slant& slant, const vessel::Design& design, double z) {
  if (design.footprint == vessel::Footprint::rectangular) {
    return {slant.spot(-0.5 * design.length_m, -0.5 * design.width_m, z),
            slant.spot(0.5 * design.length_m, -0.5 * design.width_m, z)};
  }
  std::vector<Spot> spots;
  for (int i = 0; i <= 36; ++i) {
    const double angle = constant::pi * (1.0 + i / 36.0);
    spots.push_back(
        slant.spot(0.5 * design.diameter_m * std::cos(angle), 0.5 * design.diameter_m * std::sin(angle), z));
  }
  return spots;
}

void draw_mesh(Canvas& canvas, const Slant& slant, const vessel::Design& design) {
  const Pen wire{hair, 0.5};
  constexpr int rows = 9;
  for (int i = 1; i < rows; ++i) polyline(canvas, front(slant, design, design.height_m * i / rows), wire);
  const std::vector<Spot> low = front(slant, design, 0.0);
  const std::vector<Spot> high = front(slant, design, design.height_m);
  const int posts = 16;
  for (int i = 1; i < posts; ++i) {
    const double share = static_cast<double>(i) / posts;
    if (design.footprint == vessel::Footprint::rectangular) {
      const double x = std::lerp(low[0].x, low[1].x, share);
      line(canvas, {x, low[0].y}, {x, high[0].y}, wire);
    } else {
      const auto k = static_cast<std::size_t>(share * 36.0);
      line(canvas, low[k], high[k], wire);
    }
  }
}

}  // namespace

double picture_height_share(const vessel::Design& design) noexcept {
  return (design.height_m + design.base_gap_m + tilt * vessel::deep_m(design)) / vessel::across_m(design);
}

void draw_vessel_picture(Canvas& canvas, const Box& box, const vessel::Design& design) {
  const double deep = tilt * vessel::deep_m(design);
  const double tall = design.height_m + design.base_gap_m + deep;
  Slant slant;
  slant.scale = std::min(box.width / vessel::across_m(design), box.height / tall);
  slant.origin = {box.middle_x(), box.middle_y() + (0.5 * tall - design.base_gap_m - 0.5 * deep) * slant.scale};
  const std::vector<Spot> low = front(slant, design, 0.0);
  const std::vector<Spot> high = front(slant, design, design.height_m);
  std::vector<Spot> wall = low;
  wall.insert(wall.end(), high.rbegin(), high.rend());
  fill_polygon(canvas, rim(slant, design, -design.base_gap_m), wash);
  fill_polygon(canvas, wall, paper_white);
  if (design.wall == vessel::Wall::open) draw_mesh(canvas, slant, design);
  polyline(canvas, wall, {ink, 1.0}, true);
  const std::vector<Spot> top = rim(slant, design, design.height_m);
  fill_polygon(canvas, top, wash);
  polyline(canvas, top, {ink, 1.0}, true);
  for (const vessel::Channel& channel : design.channels) {
    std::vector<Spot> mouth;
    for (int i = 0; i < 32; ++i) {
      const double angle = 2.0 * constant::pi * i / 32.0;
      mouth.push_back(slant.spot(channel.centre.x_m + 0.5 * channel.diameter_m * std::cos(angle),
                                 channel.centre.y_m + 0.5 * channel.diameter_m * std::sin(angle), design.height_m));
    }
    fill_polygon(canvas, mouth, accent);
  }
  for (const double side : {-0.7, 0.7}) {
    const Spot foot = slant.spot(side * 0.5 * vessel::across_m(design),
                                 -0.5 * vessel::deep_m(design) *
                                     std::sqrt(1.0 - 0.49 * (design.footprint == vessel::Footprint::round ? 1.0 : 0.0)),
                                 0.0);
    line(canvas, foot, {foot.x, foot.y + design.base_gap_m * slant.scale}, {ink, 1.4});
  }
}

}  // namespace stillheap::sheet
