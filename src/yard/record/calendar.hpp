#pragma once
#include <string>

#include "yard/record/due.hpp"
#include "yard/record/moment.hpp"
#include "yard/record/store.hpp"

namespace stillheap::record {

/// What is due by the records at `at`, and every planned day, as a calendar file (RFC 5545).
[[nodiscard]] std::string calendar_of(const Store& store, Instant at, const std::string& zone,
                                      const Rhythm& rhythm = {});

}  // namespace stillheap::record
