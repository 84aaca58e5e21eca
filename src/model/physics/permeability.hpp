#pragma once
#include <algorithm>

namespace stillheap::physics {

/// Share of the volume that lies between the particles, where air can pass. Air inside a dry particle is free air
/// space but no way through, so a particle fills at least its own envelope.
///
///   a_b = min(a, 1 - m / rho_p)
///
/// Symbols: a free air space [-]; m organic dry matter, kg/m3 of heap; rho_p dry matter over envelope, kg/m3.
[[nodiscard]] inline double space_between_particles(double free_air_space, double organic_kg_m3,
                                                    double particle_kg_m3) noexcept {
  return std::clamp(1.0 - organic_kg_m3 / particle_kg_m3, 0.01 * free_air_space, free_air_space);
}

/// Permeability of the heap to gas, m2: the viscous part of a packed bed's resistance.
///
///   K = d^2 a^3 / (150 (1 - a)^2)
///
/// Symbols: d particle size that resists [m]; a space between particles [-].
/// Source: Ergun 1952; the inertial part is below 1 % at the flows of a few mm/s met here.
[[nodiscard]] inline double permeability_m2(double space, double particle_size_m) noexcept {
  const double solid = 1.0 - space;
  return particle_size_m * particle_size_m * space * space * space / (150.0 * solid * solid);
}

}  // namespace stillheap::physics
