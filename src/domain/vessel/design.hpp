#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/base/geometry.hpp"
#include "core/base/note.hpp"

namespace stillheap::vessel {

enum class Footprint { round, rectangular };
enum class Wall { open, closed };

/// An air channel left by a form that is pulled after a day. `diameter_m` is the form's outside.
struct Channel {
  Point centre;
  double diameter_m = 0.0;
  double base_covered_share = 0.0;  ///< of its hole in the base that bearers and the form's stop cover; see base.hpp
};

/// `count` channels evenly on a circle, the first at `first_angle_rad` from the x axis, anticlockwise.
struct Ring {
  int count = 0;
  double radius_m = 0.0;
  double first_angle_rad = 0.0;
};

/// A slat or bearer of the base, as a straight strip.
struct Slat {
  Point from;
  Point to;
  double width_m = 0.0;
};

/// The mesh that carries the hoop tension: welded or woven wire.
struct WireMesh {
  double wire_diameter_m = 0.0;
  double spacing_m = 0.0;  ///< between the wires that run around
  double allowed_stress_pa = 0.0;
};

/// Everything that fixes one kind of vessel. The origin of the plan is the middle of the footprint;
/// z = 0 is the top of the base, z = height_m the brim.
struct Design {
  std::string name;
  int count = 1;  ///< how many alike
  Footprint footprint = Footprint::round;
  double diameter_m = 0.0;     ///< inside of the cage, round only
  double length_m = 0.0;       ///< along x, rectangular only
  double width_m = 0.0;        ///< along y, rectangular only
  double height_m = 0.0;       ///< of the cage
  double fill_height_m = 0.0;  ///< of the material on the first day, at most height_m
  Wall wall = Wall::open;
  bool base_open = true;    ///< slatted, with air below
  double base_gap_m = 0.0;  ///< free height under the base
  std::vector<Slat> slats;
  std::vector<Slat> bearers;      ///< under the slats, cut lengths; laid by with_base (base.hpp), else empty
  std::vector<Channel> channels;  ///< ring, centre and explicit ones, all resolved
  std::optional<WireMesh> mesh;
  double panel_width_m = 0.0;     ///< stock the cage is cut from: height of the panel or roll
  double lining_overlap_m = 0.0;  ///< flap over the joint
  double lining_fold_m = 0.0;     ///< folded over at top and at bottom, each
};

/// Diameter of the ring that a straight panel makes, joined without overlap: L / pi.
[[nodiscard]] double ring_diameter_m(double panel_length_m) noexcept;

/// The channels of a ring pattern. `centre` adds one in the middle, as the first.
[[nodiscard]] std::vector<Channel> ring_channels(const Ring& ring, double diameter_m, bool centre);

/// Radius of a ring of pipes tied inside a hoop: (hoop - pipe) / 2.
[[nodiscard]] double ring_radius_inside_hoop_m(double hoop_diameter_m, double pipe_diameter_m) noexcept;

/// Sides of the frame around the footprint: along x and along y.
[[nodiscard]] double across_m(const Design& design) noexcept;
[[nodiscard]] double deep_m(const Design& design) noexcept;

/// Length of the wall around the footprint.
[[nodiscard]] double perimeter_m(const Design& design) noexcept;

/// Area of the footprint without and with the channels taken out (channels that clash are taken out in full).
[[nodiscard]] double footprint_area_m2(const Design& design) noexcept;
[[nodiscard]] double material_area_m2(const Design& design) noexcept;
[[nodiscard]] double material_volume_m3(const Design& design) noexcept;

}  // namespace stillheap::vessel
