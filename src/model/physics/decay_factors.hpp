#pragma once
#include <cmath>

/// How moisture, air space and oxygen slow decay; each between 0 and 1.
/// Source: Haug 1993, chapter on kinetics, constants from memory. Together with explicit gas transport the
/// air space factor counts part of the same shortage twice; it is kept for clods smaller than a cell.
namespace stillheap::physics {

/// 1 / (1 + exp(-17.684 (M - M_h))); M moisture, M_h that of half the rate, kg/kg wet: 0.3994 after Haug.
[[nodiscard]] inline double moisture_factor(double moisture_wet, double half_wet = 7.0622 / 17.684) noexcept {
  return 1.0 / (1.0 + std::exp(-17.684 * (moisture_wet - half_wet)));
}

/// 1 / (1 + exp(-23.675 a + 3.4945)); a free air space, m3/m3.
[[nodiscard]] inline double air_space_factor(double free_air_space) noexcept {
  return 1.0 / (1.0 + std::exp(-23.675 * free_air_space + 3.4945));
}

/// o / (o + K); o oxygen by volume of the dry gas and K the half-rate oxygen, same unit.
[[nodiscard]] inline double oxygen_factor(double oxygen, double half) noexcept {
  return oxygen <= 0.0 ? 0.0 : oxygen / (oxygen + half);
}

}  // namespace stillheap::physics
