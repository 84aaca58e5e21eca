#pragma once
#include <functional>
#include <string>
#include <vector>

#include "domain/vessel/design.hpp"

namespace stillheap::vessel {

enum class ClashKind { channel_and_wall, channel_and_channel, channel_and_bearer };

/// Two things that want the same place.
struct Clash {
  ClashKind kind{};
  std::size_t channel = 0;     ///< index of the channel
  std::size_t other = 0;       ///< index of the other channel or bearer; unused for a wall
  double overlap_m = 0.0;      ///< how far they overlap or miss the wanted gap
  double gap_m = 0.0;          ///< material between them; negative: they stand in each other
  double covered_share = 0.0;  ///< bearers only: share of the channel's mouth that it covers
  bool refused = true;         ///< a channel over a bearer only loses part of its air and is a warning
};

/// Finds every clash, in order of the channels. `least_gap_m` (chosen) of material must stand between a
/// channel and the wall or another channel; a channel outside the wall clashes with it too. Bearers count once
/// they are laid (base.hpp); slats are cut open under each channel and do not.
[[nodiscard]] std::vector<Clash> find_clashes(const Design& design, double least_gap_m = 0.02);

/// Area that a disc and a straight strip with square ends share.
[[nodiscard]] double covered_area_m2(const Channel& channel, const Slat& slat) noexcept;

/// Writes a length; the front's units.
using LengthWords = std::function<std::string(double length_m)>;

/// One sentence with numbers, for errors: "channel 2 stands 12 mm into the wall". Counts from 1. Millimetres unless
/// told otherwise.
[[nodiscard]] std::string describe(const Clash& clash, const LengthWords& words = {});

/// The largest ring radius at which a ring of channels of this diameter clears the round wall; 0 when none does.
[[nodiscard]] double largest_ring_radius_m(double vessel_diameter_m, double channel_diameter_m,
                                           double least_gap_m = 0.02);

}  // namespace stillheap::vessel
