#pragma once
#include <optional>
#include <vector>

#include "domain/vessel/design.hpp"

namespace stillheap::vessel {

/// The point of the material that is farthest from air, and how far that is.
struct AirPath {
  double length_m = 0.0;           ///< to the nearest channel, open wall, top or open base
  double plan_length_m = 0.0;      ///< the same in plan only, as if the vessel were very tall; infinite when
                                   ///< walls are closed and there is no channel, then only the height counts
  Point where;                     ///< one such point of the plan, if several are alike
  double height_m = 0.0;           ///< above the base, where top and base are farthest
  bool limited_by_height = false;  ///< top or base is nearer than any channel or wall
};

/// Exact, from the vertices of the medial axis of the plan (points equidistant from three boundaries, and
/// from two where a closed wall cuts the axis), not by sampling. Channels may differ in width. A design with no
/// open wall, no channel and a closed base still has its top. Air is taken to come in over the full height
/// of every channel and open wall.
[[nodiscard]] AirPath longest_air_path(const Design& design);

/// The plan length alone, for searches: exact up to `enough_m`, beyond it any value above `enough_m`.
[[nodiscard]] double plan_length_m(const Design& design, double enough_m);

/// A pattern with the fewest channels of the given diameter that brings the longest air path within a limit.
struct Suggestion {
  std::vector<Channel> channels;
  std::optional<Ring> ring;  ///< round vessels: the ring it is made of, if it is just one
  std::vector<Ring> rings;   ///< round vessels: all rings, from the inner to the outer
  bool centre = false;
  double spacing_x_m = 0.0;  ///< rectangular vessels: between neighbours of a row along x
  double spacing_y_m = 0.0;  ///< rectangular vessels: between neighbours along y
  AirPath path;
  std::string words;  ///< without numbers with units: "five on one ring and one in the middle"
};

/// Looks through these families, fewest channels first: round: one in the middle or none, with up to two
/// rings whose radii are optimised; rectangular: square and staggered grids and single rows whose spacings are
/// optimised. Every pattern returned was checked by longest_air_path and has no refused clash. No channel at
/// all is a pattern too. Fewest is meant within these families.
/// Nothing when no pattern of up to `most` channels meets the limit.
[[nodiscard]] std::optional<Suggestion> suggest_channels(const Design& design, double limit_m,
                                                         double channel_diameter_m, int most = 40);

}  // namespace stillheap::vessel
