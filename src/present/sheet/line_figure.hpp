#pragma once
#include "core/quantity/quantity.hpp"
#include "planning/water/line.hpp"
#include "present/draw/text.hpp"

namespace stillheap::sheet {

inline constexpr double line_figure_pt = 128.0;

/// Pressure and flow of every hole over the way along the line, two frames over one axis.
void draw_line_figure(Canvas& canvas, const Box& box, const water::Line& line, const water::LineFlow& flow,
                      UnitSystem units);

}  // namespace stillheap::sheet
