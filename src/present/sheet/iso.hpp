#pragma once
#include <vector>

#include "domain/vessel/design.hpp"
#include "present/draw/canvas.hpp"

/// Parts of a vessel in isometric projection, for the exploded drawing and the small pictures of the work order. The
/// viewer stands in front and to the right: x runs to the right and down, y to the right and up, z up.
namespace stillheap::sheet {

struct Iso {
  Spot origin;  ///< of the plan's middle at z = 0
  double scale_pt_m = 1.0;
  [[nodiscard]] Spot spot(double x_m, double y_m, double z_m) const noexcept;
};

/// Half of the width, and what lies above and below the middle, that a footprint takes in the projection, metres.
[[nodiscard]] double iso_half_width_m(const vessel::Design& design, double margin_m) noexcept;
[[nodiscard]] double iso_half_depth_m(const vessel::Design& design, double margin_m) noexcept;

/// The footprint's outline opened by a margin, at a height.
[[nodiscard]] std::vector<Spot> iso_outline(const Iso& iso, const vessel::Design& design, double margin_m, double z_m);
/// A circle of the plan at a height.
[[nodiscard]] std::vector<Spot> iso_circle(const Iso& iso, Point centre, double radius_m, double z_m);

enum class Skin { mesh, cloth, boards, filling };

/// A flat slab with holes of the channels drawn on it: deck, cloth or the top of the filling.
void draw_slab(Canvas& canvas, const Iso& iso, const vessel::Design& design, double margin_m, double z_m,
               double thick_m, Colour colour, bool holes);
/// Square cloth around the footprint.
void draw_cloth(Canvas& canvas, const Iso& iso, const vessel::Design& design, double margin_m, double z_m, bool holes);
/// Slats and bearers, the deck's top at z.
void draw_base(Canvas& canvas, const Iso& iso, const vessel::Design& design, double z_m);
/// The half of the wall behind, and the half in front, from z_m up by height_m.
void draw_wall_behind(Canvas& canvas, const Iso& iso, const vessel::Design& design, double z_m, double height_m,
                      Skin skin);
void draw_wall_front(Canvas& canvas, const Iso& iso, const vessel::Design& design, double z_m, double height_m,
                     Skin skin, double opacity = 1.0);
/// Pipes from one height to another, those behind first.
void draw_pipes(Canvas& canvas, const Iso& iso, const vessel::Design& design, double low_m, double high_m);
/// The water line once round inside the wall.
void draw_ring_line(Canvas& canvas, const Iso& iso, const vessel::Design& design, double z_m);

}  // namespace stillheap::sheet
