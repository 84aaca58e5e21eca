#pragma once
#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// Adding to the store. There is no changing and no deleting: the database itself refuses both.
namespace stillheap::record {

enum class Outcome {
  stored,
  known,     ///< an entry with this id and the same content is there already: it was sent twice
  duplicate  ///< another entry says exactly this (readings: same fill, place, measure, time and value)
};

struct Stored {
  Outcome outcome = Outcome::stored;
  std::string id;  ///< of the entry that holds the content now: the given one, or that of the duplicate
};

/// Checks an entry and stores it for good: when this returns, the entry survives a crash. With mark.corrects it is a
/// correction of that statement, which must be the latest one; mark.withdrawn takes the entry back.
/// `Entry` is one of the structs of entries.hpp. Throws InputError (where = kind and field) when something is missing,
/// cannot be, refers to nothing, or when the id stands for another content; RunError when the store cannot be written.
template <class Entry>
Stored add(Store& store, const Entry& entry);

}  // namespace stillheap::record
