#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>

#include "yard/record/store.hpp"

/// Whole copies of a database. Only the files of this folder include this.
namespace stillheap::record {

/// Throws RunError when the database is damaged.
void refuse_damage(SQLite::Database& database, Check check, const std::filesystem::path& file);

/// Copies a database into a file of its own name, checks the copy, and gives it the name `target` unless something has
/// that: then false, and there is no copy. Others may use the source meanwhile.
[[nodiscard]] bool copy_whole(SQLite::Database& from, const std::filesystem::path& target);

/// Takes a database file away with what SQLite keeps beside it.
void remove_store(const std::filesystem::path& file) noexcept;

}  // namespace stillheap::record
