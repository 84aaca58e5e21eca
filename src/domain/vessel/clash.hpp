#pragma once
#include <string>
#include <vector>

#include "domain/vessel/design.hpp"

namespace stillheap::vessel {

enum class ClashKind { channel_and_wall, channel_and_channel, channel_and_slat };

/// Two things that want the same place.
struct Clash {
  ClashKind kind{};
  std::size_t channel = 0;     ///< index of the channel
  std::size_t other = 0;       ///< index of the other channel or slat; unused for a wall
  double overlap_m = 0.0;      ///< how far they overlap or miss the wanted gap
  double gap_m = 0.0;          ///< material between them; negative: they stand in each other
  double covered_share = 0.0;  ///< slats only: share of the channel's mouth that the slat covers
  bool refused = true;         ///< a channel over a slat only loses part of its air and is a warning
};

/// Finds every clash, in order of the channels. `least_gap_m` (chosen) of material must stand between a
/// channel and the wall or another channel; a channel outside the wall clashes with it too. Slats count only
/// under an open base.
[[nodiscard]] std::vector<Clash> find_clashes(const Design& design, double least_gap_m = 0.02);

/// Area that a disc and a straight strip with square ends share.
[[nodiscard]] double covered_area_m2(const Channel& channel, const Slat& slat) noexcept;

/// One sentence with numbers, for errors: "channel 2 stands 12 mm into the wall". Counts from 1.
[[nodiscard]] std::string describe(const Clash& clash);

/// The largest ring radius at which a ring of channels of this diameter clears the round wall; 0 when none does.
[[nodiscard]] double largest_ring_radius_m(double vessel_diameter_m, double channel_diameter_m,
                                           double least_gap_m = 0.02);

}  // namespace stillheap::vessel
