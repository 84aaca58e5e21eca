#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// The bare numbers of a fill's readings: what of_fill<Reading> holds, without marks, out of one index. Fit to be read
/// whole each time somebody looks at the yard.
namespace stillheap::record {

/// One measure at one place; moments and values side by side, in order of time.
struct SeriesRows {
  Measure measure = Measure::temperature;
  Place place;
  std::vector<Instant> at;
  std::vector<double> value;
  std::vector<std::int64_t> row;  ///< of each in the store, for reading_ids
};

/// Readings that stand with begin <= at < end; series without any are left out. Series in the order in which they were
/// first read.
[[nodiscard]] std::vector<SeriesRows> series_rows(const Store& store, const std::string& fill_id, Instant begin,
                                                  Instant end);

/// Ids of readings by their rows in the store, in the same order.
[[nodiscard]] std::vector<std::string> reading_ids(const Store& store, std::span<const std::int64_t> rows);

}  // namespace stillheap::record
