#pragma once
#include <filesystem>
#include <vector>

#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

namespace stillheap::sheet {

/// Writes pack.pdf, what is taken outside: the answer, contents, the first weeks' forecast, calendar, shopping and cut
/// list, drawings, loads, batch, fill and water cards, work orders, log sheet, in the order of the work. Metric gives
/// A4, US customary gives Letter. The same plan gives the same bytes. Returns the number of pages. Throws RunError when
/// the file cannot be written, InputError on a bad start date.
int write_pack(const plan::Plan& plan, const std::filesystem::path& file);

/// Writes appendix.pdf, what is looked up indoors: costs and other stock sizes, how the parts stack, loads, blend and
/// water line in full, the whole forecast, all cautions, every assumption with its source. Returns the number of pages.
/// Throws as write_pack.
int write_appendix(const plan::Plan& plan, const std::filesystem::path& file);

/// Writes drawings and work order alone, for a plan without a forecast too. Returns the number of pages. Throws as
/// write_pack.
int write_building_sheets(const plan::Plan& plan, const std::filesystem::path& file);

/// Writes the forecast's charts and sections of every vessel kind into a folder (made if missing) as SVG and PNG.
/// Returns the files written.
std::vector<std::filesystem::path> write_plots(const plan::Plan& plan, const std::filesystem::path& folder);

/// Where everything came to lie: what tests check for overlap and clipping.
struct PackLayout {
  int pages = 0;
  Paper paper;
  std::vector<SheetStart> sheets;
  std::vector<PlacedText> texts;
  std::vector<PlacedLine> lines;  ///< of the figures
  std::vector<PageUse> uses;      ///< one a page
};

/// Lays the pack, the appendix, or the drawings and work order alone, out without writing them.
[[nodiscard]] PackLayout lay_out_pack(const plan::Plan& plan);
[[nodiscard]] PackLayout lay_out_appendix(const plan::Plan& plan);
[[nodiscard]] PackLayout lay_out_building_sheets(const plan::Plan& plan);

}  // namespace stillheap::sheet
