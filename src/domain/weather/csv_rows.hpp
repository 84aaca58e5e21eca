#pragma once
#include <array>
#include <filesystem>
#include <vector>

#include "domain/weather/csv_columns.hpp"

/// Rows of a CSV weather file brought onto one year of even steps.
namespace stillheap::weather::csv {

/// One year in SI, 1 January first; empty vectors for what the file lacks.
struct Year {
  bool hourly = true;                             ///< 8760 steps, else 365
  std::array<std::vector<double>, kinds> values;  ///< degC, 1, m/s, W/m2, m/s
  Assumptions assumptions;
  [[nodiscard]] bool has(Kind kind) const noexcept { return !values[kind].empty(); }
};

/// Reads, checks and completes one year. Throws InputError with file, line and column.
[[nodiscard]] Year read_year(const std::filesystem::path& file, const CsvColumns& columns);

}  // namespace stillheap::weather::csv
