#pragma once
#include <optional>
#include <vector>

#include "vessel/design.hpp"

namespace stillheap::vessel {

/// The point of the material that is farthest from air, and how far that is.
struct AirPath {
  double length_m = 0.0;         ///< to the nearest channel, open wall, top or open base
  double plan_length_m = 0.0;    ///< the same in plan only, as if the vessel were very tall
  Point where;
  double height_m = 0.0;         ///< above the base
  bool limited_by_height = false;  ///< top or base is nearer than any channel or wall
};

/// Exact, from the vertices of the medial axis of the plan (points equidistant from three boundaries, and
/// from two where a closed wall cuts the axis), not by sampling.
[[nodiscard]] AirPath longest_air_path(const Design& design);

/// A pattern with the fewest channels of the given diameter whose longest plan path is within the limit.
struct Suggestion {
  std::vector<Channel> channels;
  std::optional<Ring> ring;      ///< round vessels: the ring it is made of
  bool centre = false;
  AirPath path;
  std::string words;             ///< "five on a ring of radius 305 mm and one in the middle"
};

/// Nothing when no pattern of up to `most` channels meets the limit.
[[nodiscard]] std::optional<Suggestion> suggest_channels(const Design& design, double limit_m, double channel_diameter_m,
                                                         int most = 40);

}  // namespace stillheap::vessel
