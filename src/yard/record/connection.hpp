#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <unordered_map>

#include "yard/record/store.hpp"

/// The database behind a Store. Only the files of this folder include this.
namespace stillheap::record {

using Row = std::int64_t;

struct Store::Connection {
  std::filesystem::path file;
  SQLite::Database database;
  int open_transactions = 0;
  /// Statements at rest, by their text; a Query takes one out while it is used.
  std::unordered_map<std::string, std::unique_ptr<SQLite::Statement>> at_rest;
};

/// A prepared statement taken from the connection's rest and given back at the end.
class Query {
 public:
  Query(Store::Connection& connection, std::string sql);
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;
  ~Query();
  SQLite::Statement* operator->() noexcept { return statement_.get(); }
  SQLite::Statement& operator*() noexcept { return *statement_; }

 private:
  Store::Connection& connection_;
  std::string sql_;
  std::unique_ptr<SQLite::Statement> statement_;
};

/// What SQLite said, in our words, with the store's file as the place.
[[noreturn]] void rethrow(const std::filesystem::path& file, const SQLite::Exception& error);

/// Runs `work` and turns what SQLite throws into RunError.
template <class Work>
auto guarded(const std::filesystem::path& file, Work&& work) {
  try {
    return work();
  } catch (const SQLite::Exception& error) {
    rethrow(file, error);
  }
}

}  // namespace stillheap::record
