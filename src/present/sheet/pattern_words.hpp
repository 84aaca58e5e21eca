#pragma once
#include <optional>
#include <vector>

#include "domain/vessel/design.hpp"

namespace stillheap::sheet {

/// Channels that stand evenly on a circle around the middle, in order of their angle.
struct RingSeen {
  std::vector<std::size_t> channels;  ///< indices into the design
  double radius_m = 0.0;
  double step_rad = 0.0;  ///< between neighbours
  double chord_m = 0.0;   ///< straight distance between neighbours' middles
  bool even = false;      ///< all steps alike within a tenth of a degree
};

/// Finds rings of two channels and more among resolved channels (radii alike to 1 mm), from the inner to the outer.
[[nodiscard]] std::vector<RingSeen> rings_of(const vessel::Design& design);

/// Polar place of a channel as a builder sets it out: distance from the middle, angle anticlockwise from the x axis.
struct Polar {
  double radius_m = 0.0, angle_rad = 0.0;
};
[[nodiscard]] Polar polar(Point p) noexcept;

/// Different values of one coordinate, sorted, alike within 1 mm counted once.
[[nodiscard]] std::vector<double> distinct(std::vector<double> values);

}  // namespace stillheap::sheet
