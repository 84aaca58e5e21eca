#pragma once
#include <vector>

#include "domain/vessel/setting_out.hpp"

/// The base a vessel stands on: deck of slats, bearers under it, and what holds the forms up. Drawing, loads, cut list,
/// prices and air all read it here.
namespace stillheap::vessel {

inline constexpr double deck_thickness_m = 0.022;    ///< chosen: a board planed from 25 mm
inline constexpr double stop_rod_m = 0.006;          ///< chosen: rod under each hole that a form stands on
inline constexpr double stop_rod_beyond_m = 0.03;    ///< chosen: past the hole, stapled there
inline constexpr double least_wood_left_m = 0.02;    ///< chosen: a slat with less beside a hole counts as cut through
inline constexpr double seat_lap_m = 0.04;           ///< chosen: a seat board laps whole wood by as much on each side
inline constexpr double bearer_clearance_m = 0.005;  ///< chosen: between a bearer and a hole
inline constexpr double least_between_bearers_m = 0.1;  ///< chosen: clear, so that air and a rake get in

struct BearerWish {
  double width_m = 0.045;         ///< on the ground, and under the deck
  double most_spacing_m = 0.6;    ///< middle to middle; chosen
  double mean_pressure_pa = 0.0;  ///< the weight spread over the footprint
  double ground_bears_pa = 0.0;   ///< 0: not known
};

/// A straight strip of the plan whose middle lies `offset_m` off the vessel's, along x or y. In a round vessel it ends
/// where its inner edge meets the wall.
[[nodiscard]] Slat strip_across(const Design& design, bool along_x, double offset_m, double width_m) noexcept;

/// True when the slats run along x (or none are laid out).
[[nodiscard]] bool slats_along_x(const Design& design) noexcept;

/// The bearers under an open base with a gap: across the slats, the outer ones flush with the footprint, the inner ones
/// clear of every channel's hole where that can be, and as even as the holes let them. As many as keep the spacing and,
/// where the ground's bearing is known, as many as it takes to stay within it; when no number does, the number
/// that presses least. Empty for a closed base or one without a gap.
/// Positions are sought on a grid of 5 mm by dynamic programming: the least covered share of the holes first, then the
/// least sum of squared distances, no distance over the spacing.
[[nodiscard]] std::vector<Slat> lay_bearers(const Design& design, const BearerWish& wish);

/// The design with its bearers laid and with each channel told what covers its mouth.
[[nodiscard]] Design with_base(Design design, const BearerWish& wish);

/// Pressure under the hardest pressed bearer over the mean pressure on the footprint: the area of footprint nearer to
/// it than to its neighbours over its own. 0 without bearers.
[[nodiscard]] double bearer_over_mean(const Design& design) noexcept;

/// Distances of the bearers' middles from the outer edge of the footprint at the low end, rising.
[[nodiscard]] std::vector<double> bearer_places_m(const Design& design);

/// Share of a channel's hole that the bearers stand under, and that its stop covers.
[[nodiscard]] double covered_by_bearers(const Design& design, const Channel& channel) noexcept;
[[nodiscard]] double covered_by_stop(const Channel& channel) noexcept;
/// Mean over the channels of what with_base found; 0 without channels.
[[nodiscard]] double mean_mouth_covered(const Design& design) noexcept;

/// A board under the deck with the channel's hole in it, screwed to the slats on both sides: it carries slats that the
/// hole cuts through and bridges a gap that the form would fall through.
struct Seat {
  std::size_t channel = 0;
  Frame board;            ///< in plan
  int slats_cut = 0;      ///< slats the hole leaves less than `least_wood_left_m` of on a side
  bool short_of = false;  ///< no whole slat to screw to on one side
};

/// One seat for each channel whose hole cuts through a slat or lies in a gap; none where the slats are not laid out or
/// the hole leaves its slat whole. A seat ends at a bearer's face where one stands nearer.
[[nodiscard]] std::vector<Seat> seats_of(const Design& design);

/// A form stands on its stop under the deck and reaches above the brim.
[[nodiscard]] double form_length_m(const Design& design, const Allowances& allowances = {}) noexcept;

}  // namespace stillheap::vessel
