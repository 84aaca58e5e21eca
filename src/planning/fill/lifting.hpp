#pragma once

namespace stillheap::fill {

/// One two-handed lift. Lengths as the guide measures them, from between the ankles and from the floor.
struct Lift {
  double horizontal_m = 0.0;      ///< hands in front of the ankles
  double start_height_m = 0.0;    ///< hands above the floor where the lift begins
  double travel_m = 0.0;          ///< up or down
  double twist_rad = 0.0;         ///< of the load out of the body's middle plane
  double frequency_factor = 1.0;  ///< see frequency_factor()
  double coupling_factor = 1.0;   ///< grip: good 1, fair 0.95 below 0.75 m, poor 0.90
};

/// Recommended weight limit in kg of load,
///
///   23 (25/H) (1 - 0.003 |V - 75|) (0.82 + 4.5/D) (1 - 0.0032 A) F C, lengths in cm, angle in degrees,
///
/// 0 where the guide sets it so (H over 63 cm, V over 175 cm, D over 175 cm, A over 135 degrees).
/// A screening value for healthy adults; it does not make a lift safe for everyone.
/// Source: Waters, Putz-Anderson, Garg 1994, Applications manual for the revised NIOSH lifting equation,
/// publication 94-110, section 1.3.
[[nodiscard]] double recommended_weight_limit_kg(const Lift& lift) noexcept;

inline constexpr double empty_pail_kg = 1.0;  ///< chosen: a plastic pail of about 19 L with its handle

/// Share of a pail to fill so that it weighs no more than the limit, rounded down to a twentieth; 1 when a full one
/// does not, 0 when even an empty one does.
[[nodiscard]] double part_filled_share(double full_pail_kg, double limit_kg) noexcept;

/// Frequency factor for work of more than two and up to eight hours with hands below 0.75 m at the start, by
/// lifts a minute; interpolated. 0 above 8 a minute.
/// Source: the same, table 5, column "8 hours, V < 30 in"; from memory.
[[nodiscard]] double frequency_factor(double lifts_per_minute) noexcept;

}  // namespace stillheap::fill
