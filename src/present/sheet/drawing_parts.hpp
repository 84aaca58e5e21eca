#pragma once
#include <string>

#include "core/quantity/workshop.hpp"
#include "domain/vessel/setting_out.hpp"
#include "planning/plan/plan.hpp"
#include "present/draw/dimension.hpp"
#include "present/draw/flow.hpp"
#include "present/sheet/field_view.hpp"
#include "present/sheet/vessel_figure.hpp"

/// What the dimensioned drawings have in common.
namespace stillheap::sheet {

/// One drawing on its page: canvas, projection of the plan or of an upright view, and the lengths it shows.
struct Drawing {
  Canvas& canvas;
  const vessel::Design& design;
  quantity::WorkshopLengths& lengths;
  Projection on_page;
  double denominator = 1.0;
  Tag figure;  ///< what is drawn while it lives belongs to the drawing
  [[nodiscard]] Spot spot(double x_m, double y_m) const { return on_page.spot({x_m, y_m}); }
  [[nodiscard]] Box box(const vessel::Frame& frame) const {
    const Spot a = spot(frame.left_m, frame.high_m);
    const Spot b = spot(frame.right_m, frame.low_m);
    return {a.x, a.y, b.x - a.x, b.y - a.y};
  }
};

inline constexpr Colour deck{0.90, 0.86, 0.78};  ///< timber, pale enough to print grey

/// Room on the page for a figure of `frame` with `left`, `right`, `above` and `below` points for dimensions, at the
/// largest round scale not over `most_height_pt`; takes it from the flow.
[[nodiscard]] Drawing begin_drawing(Flow& flow, const vessel::Design& design, quantity::WorkshopLengths& lengths,
                                    const vessel::Frame& frame, const Box& room, double most_height_pt);

/// What the words under a drawing leave of the page for it, but at least this share of the room.
[[nodiscard]] double room_for_drawing(const Flow& flow, const Flow::Draw& under, double least_share);

/// The channels' numbers in plan, each beside its circle on the side away from the vessel's middle.
void draw_channel_numbers(Canvas& canvas, const vessel::Design& design, const Projection& on_page);

/// The wall in plan, a line as thick as its kind.
void draw_wall_plan(const Drawing& drawing, const Pen& pen);
/// A straight strip (slat, bearer) in plan.
void draw_strip(const Drawing& drawing, const vessel::Slat& slat, Colour colour, const Pen& pen);
/// Bearers under the deck from the front: end on, or one along the whole width.
void draw_bearers(const Drawing& drawing);
/// Ground with strokes under it, at y in metres of an upright view.
void draw_ground_line(const Drawing& drawing, double left_m, double right_m, double y_m);
/// A caption over the figure: what it is, and its scale.
void draw_caption(const Drawing& drawing, const Box& area, const std::string& words);
/// What the rounding hides, at the sheet's end.
void state_rounding(Flow& flow, const quantity::WorkshopLengths& lengths);

}  // namespace stillheap::sheet
