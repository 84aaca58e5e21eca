#pragma once
#include "physics/gas.hpp"

namespace stillheap::physics {

/// Heat conductivity of the heap, W/(m K): parallel mean of solids, water and air by volume.
///
///   k = f (0.25 v_s + 0.60 v_w + 0.026 v_a)
///
/// Source of the components: de Vries 1963, from memory; linear in moisture and density as measured by
/// Ahn et al. 2009. Heat moved by vapour is not in it: vapour transport is its own term.
[[nodiscard]] inline double conductivity_w_m_k(double solids_share, double water_share, double air_share,
                                               double factor) noexcept {
  return factor * (0.25 * solids_share + 0.60 * water_share + air_conductivity_w_m_k * air_share);
}

}  // namespace stillheap::physics
