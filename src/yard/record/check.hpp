#pragma once
#include <utility>
#include <vector>

#include "core/base/error.hpp"
#include "yard/record/entries.hpp"

/// What an entry must be to be stored. Each adds a problem for all that is wrong, with where = "reading: value".
namespace stillheap::record {

using Problems = std::vector<Problem>;

void check(const EntryMetadata& mark, const char* word, Problems& problems);
void check(const Person& one, Problems& problems);
void check(const Vessel& one, Problems& problems);
void check(const Lot& one, Problems& problems);
void check(const Fill& one, Problems& problems);
void check(const LotUse& one, Problems& problems);
void check(const Reading& one, Problems& problems);
void check(const Event& one, Problems& problems);
void check(const LabTest& one, Problems& problems);
void check(const Spreading& one, Problems& problems);
void check(const Photo& one, Problems& problems);
void check(const CsvSource& one, Problems& problems);
void check(const DueDay& one, Problems& problems);

/// Throws InputError for an entry that cannot be, whatever the store holds: before anybody is asked whether they are
/// sure.
template <class Entry>
void refuse_impossible(const Entry& entry) {
  Problems problems;
  check(entry, problems);
  if (!problems.empty()) throw InputError(std::move(problems));
}

/// UTF-8 without control characters other than line breaks and tabs.
[[nodiscard]] bool is_plain_text(std::string_view text) noexcept;

}  // namespace stillheap::record
