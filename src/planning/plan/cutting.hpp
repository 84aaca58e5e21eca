#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Cuts every material that the site file names stock for, all vessels together, and weighs the sizes it names for
/// comparison.
[[nodiscard]] std::vector<MaterialCuts> cuts_of(const Plan& plan);

/// Whether a piece of a vessel comes out of the cuts.
[[nodiscard]] bool is_cut(const Plan& plan, const vessel::Piece& piece);

/// Stock that the cuts use, as lines to buy; what lies at hand costs nothing.
[[nodiscard]] std::vector<PricedPiece> stock_lines(const std::vector<MaterialCuts>& cutting);

}  // namespace stillheap::plan
