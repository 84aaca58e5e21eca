#pragma once
#include "present/sheet/field_drawing.hpp"

namespace stillheap::sheet {

/// The paper of the year sheet: the reader's paper lying on its side, cut below the note when the vessel is low.
[[nodiscard]] Paper year_paper(UnitSystem units, const plan::VesselPlan& vessel);

/// Up to eight of the snapshots, evenly through their list, first and last among them.
[[nodiscard]] std::vector<std::size_t> year_snapshots(const forecast::Result& result);

/// Small multiples of the inside over the run: upright cuts, a row each for temperature, oxygen and moisture, a column
/// a day, one colour scale a row. Fills one page; nothing without snapshots.
void draw_year_sheet(Canvas& canvas, const plan::Plan& plan, const plan::VesselPlan& vessel);

}  // namespace stillheap::sheet
