#pragma once

namespace stillheap::insight {

/// One kind of lift with both hands, in metres and degrees as the worker stands.
struct Lift {
  double reach_m = 0.30;          ///< from the ankles to the hands, level
  double start_height_m = 0.0;    ///< of the hands over the floor at the start
  double travel_m = 0.0;          ///< up or down
  double twist_deg = 0.0;         ///< off the middle of the body
  double frequency_factor = 1.0;  ///< 0..1, table 5 of the source
  double grip_factor = 1.0;       ///< 0..1, table 7 of the source
};

/// Recommended weight limit of a lift, kg; 0 when the lift is outside what the equation allows.
/// RWL = 23 (25/H)(1 - 0.003 |V - 75|)(0.82 + 4.5/D)(1 - 0.0032 A) FM CM, lengths in cm.
/// Source: Waters, Putz-Anderson, Garg, Applications manual for the revised NIOSH lifting equation,
/// DHHS (NIOSH) 94-110 (1994).
[[nodiscard]] double recommended_weight_limit_kg(const Lift& lift) noexcept;

}  // namespace stillheap::insight
