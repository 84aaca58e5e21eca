#pragma once
#include <filesystem>

#include "plan/plan.hpp"

namespace stillheap::sheet {

/// Writes pack.pdf: cover with the answer, shopping list, vessel figure, blend card, fill card, water card,
/// forecast, calendar, cautions, assumptions. Metric gives A4, US customary gives Letter.
void write_pack(const plan::Plan& plan, const std::filesystem::path& file);

/// Writes the forecast's plots into a folder as SVG and PNG. Returns the files written.
std::vector<std::filesystem::path> write_plots(const plan::Plan& plan, const std::filesystem::path& folder);

}  // namespace stillheap::sheet
