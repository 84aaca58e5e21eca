#pragma once
#include "yard/record/check.hpp"
#include "yard/record/connection.hpp"
#include "yard/record/entries.hpp"
#include "yard/record/store.hpp"

/// What an entry's time says beside those of its fill: nothing is read, done or spread before the fill was made, and
/// nothing is read or done to it after it was taken out. Only the files of this folder include this.
namespace stillheap::record {

/// `thing`: row of the first statement when the entry is a correction, else 0.
void check_when(Store::Connection& connection, const Reading& reading, Row thing, Problems& problems);
void check_when(Store::Connection& connection, const Event& event, Row thing, Problems& problems);
void check_when(Store::Connection& connection, const Spreading& spreading, Row thing, Problems& problems);
/// A corrected fill must not begin after what was read in it or done to it.
void check_when(Store::Connection& connection, const Fill& fill, Row thing, Problems& problems);

}  // namespace stillheap::record
