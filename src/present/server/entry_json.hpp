#pragma once
#include "present/server/json.hpp"
#include "yard/record/entries.hpp"
#include "yard/record/fields.hpp"

/// Entries of the records as JSON objects: the fields of record/fields.hpp by the same names, those of the Mark beside
/// them. Moments are whole seconds since 1970 in UTC (`_s`).
namespace stillheap::server {

/// Throws InputError naming every key that is unknown or holds the wrong kind of value. `id` must be there: the one who
/// writes makes it, so that sending twice stores once.
template <class Entry>
[[nodiscard]] Entry entry_from(const Json& json);

template <class Entry>
[[nodiscard]] Json to_json(const Entry& entry);

}  // namespace stillheap::server
