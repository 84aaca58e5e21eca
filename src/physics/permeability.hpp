#pragma once

namespace stillheap::physics {

/// Permeability of the heap to gas, m2: the viscous part of a packed bed's resistance.
///
///   K = d^2 a^3 / (150 (1 - a)^2)
///
/// Symbols: d particle size that resists [m]; a free air space [-].
/// Source: Ergun 1952; the inertial part is below 1 % at the flows of a few mm/s met here.
[[nodiscard]] inline double permeability_m2(double free_air_space, double particle_size_m) noexcept {
  const double solid = 1.0 - free_air_space;
  return particle_size_m * particle_size_m * free_air_space * free_air_space * free_air_space / (150.0 * solid * solid);
}

}  // namespace stillheap::physics
