#include "present/sheet/pattern_words.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::sheet {
namespace {

constexpr double same_m = 0.001;  // chosen: finer than anyone sets out a pipe

double step_after(const vessel::Design& design, const RingSeen& ring, std::size_t i) {
  const double here = polar(design.channels[ring.channels[i]].centre).angle_rad;
  const double next = polar(design.channels[ring.channels[(i + 1) % ring.channels.size()]].centre).angle_rad;
  const double step = next - here;
  return step > 0.0 ? step : step + 2.0 * constant::pi;
}

void complete(const vessel::Design& design, RingSeen& ring) {
  std::sort(ring.channels.begin(), ring.channels.end(), [&](std::size_t a, std::size_t b) {
    return polar(design.channels[a].centre).angle_rad < polar(design.channels[b].centre).angle_rad;
  });
  const double wanted = 2.0 * constant::pi / static_cast<double>(ring.channels.size());
  ring.even = true;
  for (std::size_t i = 0; i < ring.channels.size(); ++i) {
    constexpr double tenth_of_degree = 0.1 * constant::pi / 180.0;
    ring.even = ring.even && std::abs(step_after(design, ring, i) - wanted) < tenth_of_degree;
  }
  ring.step_rad = wanted;
  ring.chord_m = 2.0 * ring.radius_m * std::sin(0.5 * wanted);
}

}  // namespace

Polar polar(Point p) noexcept {
  double angle = std::atan2(p.y_m, p.x_m);
  if (angle < -1e-6) angle += 2.0 * constant::pi;
  return {std::hypot(p.x_m, p.y_m), std::max(0.0, angle)};
}

std::vector<RingSeen> rings_of(const vessel::Design& design) {
  std::vector<RingSeen> rings;
  for (std::size_t i = 0; i < design.channels.size(); ++i) {
    const double radius = polar(design.channels[i].centre).radius_m;
    if (radius < same_m) continue;
    const auto like = [&](const RingSeen& ring) { return std::abs(ring.radius_m - radius) < same_m; };
    auto ring = std::find_if(rings.begin(), rings.end(), like);
    if (ring == rings.end()) {
      rings.push_back({{}, radius, 0.0, 0.0, false});
      ring = rings.end() - 1;
    }
    ring->channels.push_back(i);
  }
  std::erase_if(rings, [](const RingSeen& ring) { return ring.channels.size() < 2; });
  for (RingSeen& ring : rings) complete(design, ring);
  std::sort(rings.begin(), rings.end(), [](const RingSeen& a, const RingSeen& b) { return a.radius_m < b.radius_m; });
  return rings;
}

std::vector<double> distinct(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const auto alike = [](double a, double b) { return std::abs(a - b) < same_m; };
  values.erase(std::unique(values.begin(), values.end(), alike), values.end());
  return values;
}

}  // namespace stillheap::sheet
