#include "yard/record/copy.hpp"

#include <sqlite3.h>

#include <system_error>

#include "core/base/error.hpp"
#include "core/base/in_place.hpp"
#include "yard/record/damage.hpp"
#include "yard/record/ident.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

void copy_pages(SQLite::Database& from, const fs::path& part) {
  SQLite::Database to(part.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  sqlite3_backup* copy = sqlite3_backup_init(to.getHandle(), "main", from.getHandle(), "main");
  if (copy == nullptr) throw SQLite::Exception(to.getHandle());
  const int step = sqlite3_backup_step(copy, -1);
  const int end = sqlite3_backup_finish(copy);
  if (step != SQLITE_DONE) throw SQLite::Exception("the copy ended early", step);
  if (end != SQLITE_OK) throw SQLite::Exception("the copy could not be ended", end);
  to.exec("PRAGMA journal_mode = DELETE");  // one plain file
  refuse_damage(to, Check::whole, part);
}

}  // namespace

void refuse_damage(SQLite::Database& database, Check check, const fs::path& file) {
  const std::vector<std::string> damage = damage_of(database, check, file);
  if (damage.empty()) return;
  std::string what = "is damaged: " + damage.front();
  if (damage.size() > 1) what += " (and " + std::to_string(damage.size() - 1) + " more)";
  throw RunError(file.string(), what,
                 "put the last backup in its place (stillheap restore); the damaged file and its -wal are kept");
}

bool copy_whole(SQLite::Database& from, const fs::path& target) {
  const fs::path part = target.string() + ".part-" + new_id();
  try {
    copy_pages(from, part);
    if (put_in_place(part, target)) return true;
  } catch (...) {
    remove_store(part);
    throw;
  }
  remove_store(part);
  return false;
}

void remove_store(const fs::path& file) noexcept {
  std::error_code ignored;
  for (const char* const ending : {"", "-wal", "-shm", "-journal"}) fs::remove(file.string() + ending, ignored);
}

}  // namespace stillheap::record
