#pragma once
#include <filesystem>

#include "planning/plan/plan.hpp"

namespace stillheap::plan {

/// Writes forecast.json (one object a kind of vessel) and, in forecast/<vessel>/, history.csv and the fields.
/// Throws RunError when a file cannot be written.
void write_forecast_files(const Plan& plan, const std::filesystem::path& folder);

/// A name as a folder: letters, digits, - and _ stay, the rest turns into -; never empty.
[[nodiscard]] std::string folder_name(const std::string& name);

}  // namespace stillheap::plan
