#pragma once
#include <cstdint>
#include <set>
#include <string>

#include "yard/record/store.hpp"

/// What was said since one last looked, whichever program said it: to keep what was worked out of the records.
namespace stillheap::record {

/// How far each table had come.
struct Waterline {
  std::int64_t readings = 0, events = 0, others = 0;
};
[[nodiscard]] Waterline waterline(const Store& store);

struct Touched {
  bool all = false;             ///< something that may concern every fill: a fill, a vessel, a lot, a test
  std::set<std::string> fills;  ///< ids of fills with new readings or events, corrected ones too
};
/// Costs by the number of new rows, not by the size of the store.
[[nodiscard]] Touched touched_since(const Store& store, const Waterline& then);

}  // namespace stillheap::record
