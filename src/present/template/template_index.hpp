#pragma once
#include "present/template/template_drawing.hpp"

namespace stillheap::sheet {

inline constexpr double points_a_metre = 72.0 / 0.0254;  ///< a point is 1/72 in

/// A bar of 100 mm or 4 in, in ten or eight parts, to hold a rule against; `upright` runs up from the spot.
void draw_check_bar(Canvas& canvas, Spot at, UnitSystem units, bool upright);

/// The page before the tiles: how to print and join them, the map of pages, bars both ways, setting out by tape.
void draw_index(Canvas& canvas, const TemplateDrawing& drawing, const Tiling& tiling);

}  // namespace stillheap::sheet
