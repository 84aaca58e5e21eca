#pragma once
#include <vector>

#include "plan/plan.hpp"
#include "sheet/field_view.hpp"
#include "sheet/text.hpp"
#include "sheet/ticks.hpp"

namespace stillheap::sheet {

/// Up to four snapshots worth looking at: near the first day, the peak, halfway in the logarithm of time, and the end.
[[nodiscard]] std::vector<std::size_t> telling_snapshots(const forecast::Result& result);

/// Height that the figure takes at this width.
[[nodiscard]] double section_figure_height(Canvas& canvas, double width_pt, const plan::VesselPlan& vessel);

/// Temperature and oxygen in plan at half height and in the upright cut through the middle, a column a day.
void draw_section_figure(Canvas& canvas, const Box& box, const plan::VesselPlan& vessel, Date start, UnitSystem units);

}  // namespace stillheap::sheet
