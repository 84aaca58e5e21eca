#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>
#include <vector>

#include "yard/record/store.hpp"

/// What is wrong inside a database. Only the files of this folder include this.
namespace stillheap::record {

/// Lines of quick_check or integrity_check and foreign_key_check, at most some twenty; empty when nothing is wrong.
/// An error on the way counts as damage.
[[nodiscard]] std::vector<std::string> damage_of(SQLite::Database& database, Check check,
                                                 const std::filesystem::path& file);

}  // namespace stillheap::record
