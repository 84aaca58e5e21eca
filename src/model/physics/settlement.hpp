#pragma once
#include <algorithm>
#include <cmath>

namespace stillheap::physics {

/// Strain of a layer under the load above it, 0..0.9: C log10(1 + sigma / 1 kPa).
/// Source: log-linear compression of composts, Das & Keener 1997; the index is a parameter.
[[nodiscard]] inline double compression_strain(double load_pa, double index) noexcept {
  return std::clamp(index * std::log10(1.0 + std::max(0.0, load_pa) / 1000.0), 0.0, 0.9);
}

/// Height of a layer over its height on the first day.
///
///   h / h_0 = (m / m_0)^s (1 - e)
///
/// Symbols: m dry solids; s height lost per solids lost; e strain reached so far.
[[nodiscard]] inline double layer_height_ratio(double solids_ratio, double height_per_solids, double strain) noexcept {
  return std::pow(solids_ratio, height_per_solids) * (1.0 - strain);
}

}  // namespace stillheap::physics
