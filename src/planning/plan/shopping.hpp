#pragma once
#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Parts of all vessels, their water lines and the year's water, each with its price where the site file has one.
[[nodiscard]] std::vector<PricedPiece> vessel_shopping(const Plan& plan);

/// Feedstocks of all vessels by mass, each with its price where its offer has one.
[[nodiscard]] std::vector<PricedPiece> feedstock_shopping(const Plan& plan);

/// Hours of the first year and what they cost: building, filling, daily rounds.
[[nodiscard]] std::vector<LabourLine> labour_of(const Plan& plan);

/// Fills in cutting, shopping, labour and their sums.
void add_costs(Plan& plan);

/// Building time and what is left out of the costs, for the reports.
[[nodiscard]] Assumptions cost_choices();

}  // namespace stillheap::plan
