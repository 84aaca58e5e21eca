#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "domain/weather/series.hpp"
#include "domain/weather/table.hpp"

/// Which column of a CSV weather file is what, and in which unit.
namespace stillheap::weather::csv {

enum Kind : std::size_t { air, low, high, humidity, wind, sun, rain, kinds };

/// value in SI = scale * value + offset; `per_step`: the amount of one row, to be divided by its length.
struct Unit {
  const char* name;
  double scale, offset;
  bool per_step;
};

/// One row a kind: what the value may be, in SI.
struct Quantity {
  const char* key;
  double least, most;
  const char* allowed;
  const std::vector<Unit>& units;
};

[[nodiscard]] const Quantity& quantity_of(Kind kind);

/// Where one kind stands in the file.
struct Column {
  bool present = false;
  std::size_t field = 0;
  std::string header;
  Unit unit{};
};

struct Layout {
  char delimiter = ',';
  std::size_t time_field = 0;
  std::array<Column, kinds> columns;
};

/// Finds the wanted columns in the header line; adds a problem for each that is not there or has no known unit.
[[nodiscard]] Layout find_columns(const std::string& header, const CsvColumns& wanted, FileProblems& problems);

}  // namespace stillheap::weather::csv
