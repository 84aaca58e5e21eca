#pragma once
#include <filesystem>

#include "planning/plan/plan.hpp"

/// The plan as CSV, SI numbers with their unit in the column's name.
namespace stillheap::plan {

[[nodiscard]] std::string shopping_csv(const Plan& plan);
/// What comes out of which panel, roll, board or pipe, and where it lies on it.
[[nodiscard]] std::string cuts_csv(const Plan& plan);
/// Pressure and flow of every hole of every water line.
[[nodiscard]] std::string line_csv(const Plan& plan);
[[nodiscard]] std::string blend_csv(const Plan& plan);
[[nodiscard]] std::string fill_csv(const Plan& plan);
[[nodiscard]] std::string water_csv(const Plan& plan);
[[nodiscard]] std::string calendar_csv(const Plan& plan);
[[nodiscard]] std::string assumptions_csv(const Plan& plan);

/// Writes supply.csv and supply.ics of the yard plan; nothing where there is none.
void write_supply(const Plan& plan, const std::filesystem::path& folder);

/// Writes plan.json and all CSV files into an existing folder. Throws RunError when one cannot be written.
void write_records(const Plan& plan, const std::filesystem::path& folder);

}  // namespace stillheap::plan
