#pragma once
#include <optional>
#include <string>
#include <vector>

#include "yard/record/contents.hpp"
#include "yard/record/write.hpp"

/// Work on an entry of which only the id is known.
namespace stillheap::record {

/// Table of the entry with this id ("readings"); nothing when there is none.
[[nodiscard]] std::optional<std::string> kind_of(const Store& store, const std::string& id);

/// One statement about a thing.
struct Statement {
  EntryMetadata mark;
  Contents contents;
};

/// All statements about the thing, oldest first. Throws InputError when the id is not known.
[[nodiscard]] std::vector<Statement> statements(const Store& store, const std::string& id);

/// Takes back what stands for the id. `mark` says who and why. Throws InputError when it is not known.
Stored withdraw(Store& store, const std::string& id, EntryMetadata mark);

}  // namespace stillheap::record
