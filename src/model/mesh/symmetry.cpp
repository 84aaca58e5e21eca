#include "model/mesh/symmetry.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/constants.hpp"

namespace stillheap::mesh {
namespace {

using constant::pi;

// Positions closer than this are the same hole drilled; a tenth of a millimetre is finer than any workshop.
constexpr double same_place_m = 1e-4;

Point mirrored(Point p, double axis_rad) {
  const double c = std::cos(2.0 * axis_rad);
  const double s = std::sin(2.0 * axis_rad);
  return {c * p.x_m + s * p.y_m, s * p.x_m - c * p.y_m};
}

bool mirrors_onto_itself(const std::vector<vessel::Channel>& channels, double axis_rad) {
  return std::all_of(channels.begin(), channels.end(), [&](const vessel::Channel& channel) {
    const Point image = mirrored(channel.centre, axis_rad);
    return std::any_of(channels.begin(), channels.end(), [&](const vessel::Channel& other) {
      return distance_m(image, other.centre) < same_place_m &&
             std::abs(channel.diameter_m - other.diameter_m) < same_place_m;
    });
  });
}

// Without channels every line is an axis; a wedge of 30 degrees keeps its triangles well shaped.
constexpr int mirrors_of_plain_round = 6;

Sector round_sector(const std::vector<vessel::Channel>& channels) {
  std::vector<double> axes;
  for (const vessel::Channel& a : channels) {
    if (std::hypot(a.centre.x_m, a.centre.y_m) < same_place_m) continue;
    axes.push_back(std::atan2(a.centre.y_m, a.centre.x_m));
  }
  if (axes.empty()) return {mirrors_of_plain_round, 0.0};
  const double first = axes.front();
  const int most = static_cast<int>(axes.size());
  for (int n = most; n >= 1; --n) {
    // An axis of a pattern of n-fold mirror symmetry passes through a channel or midway between two.
    for (const double start : {first, first + pi / (2.0 * n), first + pi / n}) {
      bool fits = true;
      for (int k = 0; k < n && fits; ++k) fits = mirrors_onto_itself(channels, start + k * pi / n);
      if (fits) return {n, start};
    }
  }
  for (std::size_t i = 0; i < axes.size(); ++i) {  // one axis between two unlike neighbours
    for (std::size_t j = i; j < axes.size(); ++j) {
      const double axis = 0.5 * (axes[i] + axes[j]);
      if (mirrors_onto_itself(channels, axis)) return {1, axis};
    }
  }
  return {};
}

Sector rectangular_sector(const std::vector<vessel::Channel>& channels) {
  const bool about_x = mirrors_onto_itself(channels, 0.0);
  const bool about_y = mirrors_onto_itself(channels, pi / 2.0);
  if (about_x && about_y) return {2, 0.0};
  if (about_x) return {1, 0.0};
  if (about_y) return {1, pi / 2.0};
  return {};
}

}  // namespace

double Sector::angle_rad() const noexcept { return mirrors == 0 ? 2.0 * pi : pi / mirrors; }

Sector find_sector(const vessel::Design& design) {
  return design.footprint == vessel::Footprint::round ? round_sector(design.channels)
                                                      : rectangular_sector(design.channels);
}

}  // namespace stillheap::mesh
