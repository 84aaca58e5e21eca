#pragma once
#include <string>
#include <string_view>

/// Outside checks: expected numbers, tolerances and sources live in tests/outside/<topic>.toml, one
/// [[check]] each; the test computes and compares. docs/outside-checks.md is generated from the same
/// tables, and a check that no test exercised makes its test program fail.
///
///   [[check]]
///   id = "W01"
///   title = "Reference evapotranspiration of a day in July"
///   source = "Allen et al. 1998, FAO-56, ch. 4, example 18"
///   known = "A"                      # A read or run, B formula standard and arithmetic ours, C from memory,
///                                    # P common practice, no source
///   tolerance = "book rounds to 0.1 mm/d; 0.02 asked"   # why this tolerance
///   [check.expect]
///   eto_mm_d = { value = 3.88, abs = 0.02 }
///   rn_mj_m2 = { value = 13.28, rel = 0.005 }
///   verdict = "pass"                 # texts must match exactly
///   band = { low = 1, high = 10 }    # must lie inside
namespace stillheap::outside {

/// Compares one computed number with the table (fails the running test when it is off or unknown).
void expect(std::string_view id, std::string_view key, double computed);

/// Compares one computed text with the table.
void expect(std::string_view id, std::string_view key, const std::string& computed);

/// Reports a value that misses its expectation by design of the source, without failing: it stands in the
/// docs as a miss with the reason. Use only for an honest, explained miss.
void report_miss(std::string_view id, std::string_view key, double computed, std::string_view why);

}  // namespace stillheap::outside
