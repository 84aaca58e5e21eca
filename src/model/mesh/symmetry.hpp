#pragma once
#include "domain/vessel/design.hpp"

namespace stillheap::mesh {

/// The smallest wedge of the plan that, mirrored and turned, gives the whole: between the rays at
/// `first_angle_rad` and `first_angle_rad + pi / mirrors`, 2 * mirrors copies. No mirror: the whole plan.
struct Sector {
  int mirrors = 0;
  double first_angle_rad = 0.0;

  [[nodiscard]] int copies() const noexcept { return mirrors == 0 ? 1 : 2 * mirrors; }
  [[nodiscard]] double angle_rad() const noexcept;
};

/// Finds the sector from footprint and channels. Only mirror symmetry about the middle counts: a pattern
/// that merely turns onto itself would need periodic edges and is solved whole.
[[nodiscard]] Sector find_sector(const vessel::Design& design);

}  // namespace stillheap::mesh
