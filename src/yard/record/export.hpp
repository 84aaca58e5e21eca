#pragma once
#include <iosfwd>
#include <string>
#include <vector>

#include "yard/record/store.hpp"

/// Everything out again, as CSV and JSON: every statement, corrected and withdrawn ones too, with their marks.
namespace stillheap::record {

/// Names of the kinds of entries, as their files are called: "readings", "events".
[[nodiscard]] std::vector<std::string> exported_kinds();

/// One kind as CSV (RFC 4180, SI numbers, moments in UTC), row by row. `stands` tells the statements that count now.
/// Text that a spreadsheet would run as a formula gets an apostrophe first; numbers stay numbers.
/// Throws InputError for another kind.
void write_csv(const Store& store, const std::string& kind, std::ostream& to);

/// All kinds as one JSON object of arrays, row by row.
void write_json(const Store& store, std::ostream& to);

}  // namespace stillheap::record
