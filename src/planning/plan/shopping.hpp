#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Parts of all vessels, their water lines and the year's water, each with its price where the site file has one.
[[nodiscard]] std::vector<PricedPiece> vessel_shopping(const Plan& plan);

/// Feedstocks of all vessels by mass, each with its price where its offer has one.
[[nodiscard]] std::vector<PricedPiece> feedstock_shopping(const Plan& plan);

/// Hours of the first year and what they cost: building, filling, forms, cover, worms, harvest and daily rounds.
[[nodiscard]] std::vector<LabourLine> labour_of(const Plan& plan);

/// What a list costs as far as its lines have prices.
struct PricedSum {
  double cost = 0.0;
  int priced = 0;
  int lines = 0;
  /// "priced lines only: 9 of 31", or that all are.
  [[nodiscard]] std::string words() const;
};
[[nodiscard]] PricedSum sum_of(const std::vector<PricedPiece>& lines);
/// Vessels and feedstocks together.
[[nodiscard]] PricedSum material_sum(const Plan& plan);

/// Fills in cutting, shopping, labour and their sums.
void add_costs(Plan& plan);

/// Building time and what is left out of the costs, for the reports.
[[nodiscard]] Assumptions cost_choices(UnitSystem units);

}  // namespace stillheap::plan
