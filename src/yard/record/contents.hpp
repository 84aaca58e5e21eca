#pragma once
#include <string>
#include <utility>
#include <vector>

#include "yard/record/entries.hpp"

/// An entry as names and texts: to compare, to export, to hash.
namespace stillheap::record {

using Contents = std::vector<std::pair<std::string, std::string>>;

/// The fields of an entry without its EntryMetadata, in the order of the columns. Numbers with all their digits,
/// moments in UTC, nothing as an empty text.
template <class Entry>
[[nodiscard]] Contents contents(const Entry& entry);

}  // namespace stillheap::record
