#pragma once
#include <string>

#include "yard/record/connection.hpp"
#include "yard/record/entries.hpp"

/// A series is one measure at one place of one fill. Only the files of this folder include this.
namespace stillheap::record {

/// A place as the store tells places apart: to 1 mm and 0.1 deg.
[[nodiscard]] std::string place_key(const Place& place);

/// Row of a reading's series; 0 when there is none yet.
[[nodiscard]] Row find_series(Store::Connection& connection, const Reading& reading);

/// The same, made when missing.
[[nodiscard]] Row series_of(Store::Connection& connection, const Reading& reading);

/// Id of a reading that stands and says the same: same series, time and value. Empty when there is none.
[[nodiscard]] std::string find_duplicate(Store::Connection& connection, const Reading& reading);

}  // namespace stillheap::record
