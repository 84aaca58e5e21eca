#pragma once
#include <vector>

#include "yard/record/due.hpp"

namespace stillheap::app {

/// What is due, by the records and the planned days.
[[nodiscard]] inline std::vector<record::Due> due_of_yard(const record::Store& store, record::Instant at,
                                                          const std::string& zone) {
  return record::due_list(record::yard(store), record::all<record::DueDay>(store), at, zone);
}

}  // namespace stillheap::app
