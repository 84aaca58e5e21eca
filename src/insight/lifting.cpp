#include "insight/lifting.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::insight {

double recommended_weight_limit_kg(const Lift& lift) noexcept {
  const double reach_cm = std::max(25.0, lift.reach_m * 100.0);
  const double height_cm = lift.start_height_m * 100.0;
  const double travel_cm = std::max(25.0, std::abs(lift.travel_m) * 100.0);
  // Limits of the equation, NIOSH 94-110 section 1.3: beyond them the multipliers are nought.
  const bool outside =
      reach_cm > 63.0 || height_cm < 0.0 || height_cm > 175.0 || travel_cm > 175.0 || std::abs(lift.twist_deg) > 135.0;
  if (outside) return 0.0;
  return 23.0 * (25.0 / reach_cm) * (1.0 - 0.003 * std::abs(height_cm - 75.0)) * (0.82 + 4.5 / travel_cm) *
         (1.0 - 0.0032 * std::abs(lift.twist_deg)) * lift.frequency_factor * lift.grip_factor;
}

}  // namespace stillheap::insight
