#pragma once
#include <string>

#include "planning/plan/plan.hpp"
#include "present/draw/text.hpp"

namespace stillheap::sheet {

/// Room left of both views for dimension lines; both stand on the same left edge.
inline constexpr double left_room_pt = 72.0;

/// Both views are drawn to the same round scale, 1 : denominator.
struct Scale {
  double denominator = 10.0;
  double pt_m = 0.0;
};
/// The largest round scale at which plan and upright view fit the given width and height.
[[nodiscard]] Scale figure_scale(const vessel::Design& design, UnitSystem units, double width_pt, double height_pt);

/// The largest round scale at which so many metres fit into so many points both ways.
[[nodiscard]] Scale round_scale(UnitSystem units, double wide_m, double high_m, double width_pt, double height_pt);

/// Heights the views take, dimension lines included.
[[nodiscard]] double plan_view_height(const vessel::Design& design, const Scale& scale) noexcept;
[[nodiscard]] double upright_view_height(const vessel::Design& design, const Scale& scale) noexcept;

/// Plan with channels, slats, ring radius, angle, chord and the longest air path.
void draw_plan_view(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel, const Scale& scale,
                    UnitSystem units);
/// Cut through the middle, seen from the front: cage, filling, channels, base and ground.
void draw_upright_view(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel, const Scale& scale,
                       UnitSystem units);

/// Height of the picture over its width when it fills its width.
[[nodiscard]] double picture_height_share(const vessel::Design& design) noexcept;
/// A small picture of the vessel seen from above at a slant, without dimensions.
void draw_vessel_picture(Canvas& canvas, const Box& box, const vessel::Design& design);

}  // namespace stillheap::sheet
