#pragma once
#include <vector>

#include "domain/vessel/design.hpp"
#include "domain/vessel/parts.hpp"

/// The geometry of setting out: what a builder measures with a tape.
namespace stillheap::vessel {

/// Straight distance between two points of a circle seen from its middle under this angle: 2 r sin(angle / 2).
/// Source: any handbook's table of chords for the unit radius.
[[nodiscard]] double chord_m(double radius_m, double angle_rad) noexcept;

/// Inside diameter of a hoop that holds pipes standing on a ring, the pipes tied to its inside: 2 r + d.
/// The inverse of ring_radius_inside_hoop_m.
[[nodiscard]] double hoop_inside_m(double ring_radius_m, double pipe_diameter_m) noexcept;

/// An upright rectangle of the plan.
struct Frame {
  double left_m = 0.0, low_m = 0.0, right_m = 0.0, high_m = 0.0;
  [[nodiscard]] double width_m() const noexcept { return right_m - left_m; }
  [[nodiscard]] double height_m() const noexcept { return high_m - low_m; }
};

/// The footprint's frame, opened by `margin_m` on every side.
[[nodiscard]] Frame footprint_frame(const Design& design, double margin_m) noexcept;
/// The frame of all channels with the middle of the vessel in it, opened by `margin_m`; a point when there are none.
[[nodiscard]] Frame channels_frame(const Design& design, double margin_m) noexcept;

/// One flat panel of the wall, and how many alike.
struct FlatPanel {
  int count = 0;
  double length_m = 0.0, height_m = 0.0;
};

/// The wall and its lining laid flat.
struct Development {
  std::vector<FlatPanel> panels;      ///< round: one; rectangular: long and short sides; as high as the brim
  int joints = 0;                     ///< upright joints of a mesh that are tied; a closed wall has none
  std::vector<double> tie_heights_m;  ///< along one joint, see tie_heights_m
  int boards_a_side = 0;              ///< closed straight walls: boards one above the other
  double board_m = 0.0;               ///< width of one
  int posts = 0;                      ///< closed straight walls: upright, outside the boards
  double post_length_m = 0.0;
  double lining_length_m = 0.0;  ///< flap included
  double lining_height_m = 0.0;  ///< folds included
  double flap_m = 0.0, fold_m = 0.0;
};

/// Heights of the ties along one joint, from the bottom: on every so many-th wire that runs around, at most
/// `tie_spacing_m` apart (but no closer than the wires), and on the topmost wire. Where no mesh is given, evenly from
/// end to end.
[[nodiscard]] std::vector<double> tie_heights_m(const Design& design, const Allowances& allowances = {});
/// The widest distance between two ties, whose pull the loads give.
[[nodiscard]] double tie_pitch_m(const Design& design, const Allowances& allowances = {});

/// Sizes agree with pieces_of.
[[nodiscard]] Development development_of(const Design& design, const Allowances& allowances = {});

/// What holds the forms at the brim: a hoop round three and more of an outermost ring, else two battens a row.
struct FormHolder {
  bool hoop = false;
  int count = 0;
  double length_m = 0.0;  ///< of rod, along the hoop's inside, or of one batten
};
[[nodiscard]] FormHolder form_holder_of(const Design& design);

/// A place along the water line: distance from the inlet, and its point of the plan.
struct LinePlace {
  double along_m = 0.0;
  Point at;
};

/// Points along a line laid inside the wall at `inset_m` from it, beginning at the front (round: at -y; rectangular:
/// middle of the front side) and going anticlockwise. Holes are given by their distance from the inlet; distances past
/// one round wrap.
[[nodiscard]] LinePlace line_place(const Design& design, double inset_m, double along_share) noexcept;

}  // namespace stillheap::vessel
