#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "yard/record/csv_mapping.hpp"

/// The times of a logger's rows. Only the files of this folder include this.
namespace stillheap::record {

/// Turns wall times into moments, row by row in rising time.
class RowClock {
 public:
  explicit RowClock(const CsvMapping& mapping) : mapping_(mapping) {}

  /// The moment of a row; why not in `why` when there is none. `probe`: what tells the row's probe from others.
  [[nodiscard]] std::optional<Instant> read(const std::string& text, const std::string& probe, std::string& why);

  /// How many rows were put into the second pass of an hour that came twice.
  [[nodiscard]] std::size_t second_passes() const noexcept { return second_passes_; }

 private:
  const CsvMapping& mapping_;
  std::map<std::string, Instant> last_;  ///< by probe
  std::optional<Instant> latest_;
  std::size_t second_passes_ = 0;
};

}  // namespace stillheap::record
