#include "yard/record/changes.hpp"

#include "yard/record/connection.hpp"

namespace stillheap::record {

long long version_by_others(const Store& store) {
  return store.connection().database.execAndGet("PRAGMA data_version").getInt64();
}

}  // namespace stillheap::record
