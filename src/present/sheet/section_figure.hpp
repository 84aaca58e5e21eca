#pragma once
#include <vector>

#include "present/sheet/field_drawing.hpp"

namespace stillheap::sheet {

/// Up to four snapshots worth looking at: near the first day, the peak, halfway in the logarithm of time, and the end.
[[nodiscard]] std::vector<std::size_t> telling_snapshots(const forecast::Result& result);

/// The snapshots of each section figure, at most four a figure: all of them on days that the reader chose, else the
/// telling ones.
[[nodiscard]] std::vector<std::vector<std::size_t>> section_figures(const plan::Plan& plan,
                                                                    const forecast::Result& result);

/// Height that a figure takes at this width.
[[nodiscard]] double section_figure_height(double width_pt, const plan::VesselPlan& vessel);

/// Temperature, oxygen and moisture in plan at half height and in the upright cut through the middle, a column a day.
void draw_section_figure(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel,
                         const std::vector<std::size_t>& chosen, Date start, UnitSystem units);

}  // namespace stillheap::sheet
