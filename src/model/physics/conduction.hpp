#pragma once
#include "model/physics/gas.hpp"

namespace stillheap::physics {

/// Heat conductivity of the heap, W/(m K): parallel mean of solids, water, ice and air by volume.
///
///   k = f (0.25 v_s + 0.60 v_w + 2.2 v_i + 0.026 v_a)
///
/// Source of the components: de Vries 1963, ice as in ASHRAE Fundamentals, both from memory; linear in moisture and
/// density as measured by Ahn et al. 2009. Heat moved by vapour is not in it: vapour transport is its own term.
[[nodiscard]] inline double conductivity_w_m_k(double solids_share, double water_share, double ice_share,
                                               double air_share, double factor) noexcept {
  return factor * (0.25 * solids_share + 0.60 * water_share + 2.2 * ice_share + air_conductivity_w_m_k * air_share);
}

}  // namespace stillheap::physics
