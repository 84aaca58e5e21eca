#pragma once
#include <string>
#include <vector>

#include "present/draw/text.hpp"

/// Dimension lines and callouts of the workshop drawings.
namespace stillheap::sheet {

/// Measures from a to b: lines carried out from both points by `offset_pt` to the left of the way from a to b (page
/// seen with y downwards: a to b pointing right puts the line above), arrowheads at both ends, the label on the
/// outer side, further out by `label_lift_pt`. Too short a line gets its arrows from outside.
void draw_dimension(Canvas& canvas, Spot a, Spot b, double offset_pt, const std::string& label,
                    double label_lift_pt = 0.0);

/// Measures an angle around `centre` at this radius, label outside the arc. Angles as in the plan, anticlockwise.
void draw_angle(Canvas& canvas, Spot centre, double radius_pt, double from_rad, double to_rad,
                const std::string& label);

/// A note beside the drawing with a leader to what it speaks of.
struct Callout {
  Spot anchor;
  std::string text;
  Colour colour = ink;
};

/// Stacks the notes in the column, in the order of their anchors so that leaders do not cross, and never over each
/// other. Returns where they end.
double draw_callouts(Canvas& canvas, std::vector<Callout> callouts, const Box& column);

/// A bar of a round length under the drawing, "0 | 500 mm".
void draw_scale_bar(Canvas& canvas, Spot left, double scale_pt_m, const std::string& label, double length_m);

}  // namespace stillheap::sheet
