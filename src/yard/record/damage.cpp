#include "yard/record/damage.hpp"

#include <system_error>

namespace stillheap::record {
namespace {

constexpr std::uintmax_t small_store_bytes = 32U << 20U;
constexpr std::size_t most_damage_lines = 20;

void collect(SQLite::Database& database, const std::string& pragma, std::vector<std::string>& damage) {
  SQLite::Statement statement(database, "PRAGMA " + pragma);
  while (statement.executeStep() && damage.size() < most_damage_lines) {
    const std::string line = statement.getColumn(0).getString();
    if (line != "ok") damage.push_back(line);
  }
}

void collect_orphans(SQLite::Database& database, std::vector<std::string>& damage) {
  SQLite::Statement orphans(database, "PRAGMA foreign_key_check");
  while (orphans.executeStep() && damage.size() < most_damage_lines) {
    damage.push_back("a row of " + orphans.getColumn(0).getString() + " refers to nothing");
  }
}

}  // namespace

std::vector<std::string> damage_of(SQLite::Database& database, Check check, const std::filesystem::path& file) {
  std::vector<std::string> damage;
  try {
    std::error_code failure;
    const bool small = std::filesystem::file_size(file, failure) <= small_store_bytes;
    if (check == Check::whole) {
      collect(database, "integrity_check", damage);
      collect_orphans(database, damage);
    } else if (small) {
      collect(database, "quick_check", damage);
    } else {
      SQLite::Statement tables(database, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'readings'");
      while (tables.executeStep()) collect(database, "quick_check(" + tables.getColumn(0).getString() + ")", damage);
    }
  } catch (const SQLite::Exception& error) {
    damage.emplace_back(error.what());
  }
  return damage;
}

}  // namespace stillheap::record
