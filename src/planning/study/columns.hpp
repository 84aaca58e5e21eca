#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "planning/study/findings.hpp"

namespace stillheap::study {

/// One column of the results, a value for each run: numbers or words.
struct Column {
  std::string name;
  std::string unit;  ///< as UDUNITS-2 writes it; empty for words
  std::string help;
  bool is_text = false;
  std::vector<double> numbers;  ///< NaN: not known
  std::vector<std::string> words;
};

/// case, vessel, state, reason, every varied key, every measure, and the ends of its band where there are bands.
[[nodiscard]] std::vector<Column> columns_of(const Findings& findings);

/// The columns as CSV, for spreadsheets.
[[nodiscard]] std::string runs_csv(const std::vector<Column>& columns);

/// Writes the columns as one NetCDF-4 (HDF5) file: a variable each along the dimension `run`, with units and long_name.
/// Throws RunError when it cannot be written.
void write_netcdf(const std::vector<Column>& columns, const std::string& title, const std::filesystem::path& file);

}  // namespace stillheap::study
