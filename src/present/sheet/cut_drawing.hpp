#pragma once
#include "planning/plan/plan.hpp"
#include "present/draw/flow.hpp"

/// Cuts drawn on their stock, to scale.
namespace stillheap::sheet {

/// Stock that is cut alike, once.
struct AlikeCuts {
  std::size_t first = 0;  ///< of the job's pieces
  int count = 1;
};
[[nodiscard]] std::vector<AlikeCuts> alike_cuts(const cut::JobCuts& cuts);

/// "25 m × 1.5 m", as it is sold.
[[nodiscard]] std::string stock_size(const cut::Stock& stock, UnitSystem units);

/// "A", "B", ... "Z", "AA": the name of a part on the drawing.
[[nodiscard]] std::string part_letter(std::size_t part);

/// One round scale, 1 : denominator, for all the stock of a job.
[[nodiscard]] double cut_scale(const plan::MaterialCuts& material, double width_pt) noexcept;

/// Height the first of its drawings takes.
[[nodiscard]] double first_cut_pt(const plan::MaterialCuts& material, double denominator);

/// What a drawing of one kind of part would show: "From 6 of 5.1 m × 1.5 m, rest 73 mm: 1 A each." Empty where there
/// are several kinds, which want a drawing.
[[nodiscard]] std::string cuts_in_words(const plan::MaterialCuts& material, UnitSystem units);

/// Draws every different piece of stock with its parts lettered, how often it is cut so, and what is left.
void draw_cuts(Flow& flow, const plan::MaterialCuts& material, double denominator, UnitSystem units);

}  // namespace stillheap::sheet
