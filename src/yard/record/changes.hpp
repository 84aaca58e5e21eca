#pragma once
#include "yard/record/store.hpp"

/// Whether somebody else stored something.
namespace stillheap::record {

/// A number that is another one after each commit of another connection, of this program or any other; what this
/// connection itself stores leaves it as it is. To be compared with an earlier one of the same `store` alone.
/// Source: SQLite's documentation of PRAGMA data_version.
[[nodiscard]] long long version_by_others(const Store& store);

}  // namespace stillheap::record
