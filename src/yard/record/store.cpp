#include "yard/record/store.hpp"

#include <sqlite3.h>

#include <fstream>
#include <system_error>
#include <utility>

#include "core/base/error.hpp"
#include "yard/record/connection.hpp"
#include "yard/record/damage.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

int number_of(SQLite::Database& database, const char* pragma) {
  return database.execAndGet(std::string("PRAGMA ") + pragma).getInt();
}

void set_up(SQLite::Database& database) {
  // FULL: a commit is on the disk before it is acknowledged. recursive_triggers: REPLACE fires the guards too.
  database.exec("PRAGMA journal_mode = WAL");
  database.exec("PRAGMA synchronous = FULL");
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA recursive_triggers = ON");
  database.exec("PRAGMA trusted_schema = OFF");
  database.exec("PRAGMA cell_size_check = ON");
  database.exec("PRAGMA cache_size = -16000");  // KiB
}

void refuse_strangers(SQLite::Database& database, const fs::path& file) {
  const bool empty = database.execAndGet("SELECT count(*) FROM sqlite_schema").getInt() == 0;
  if (!empty && number_of(database, "application_id") != application_id) {
    throw InputError(file.string(), "is a database of another program", "name the file that stillheap made");
  }
  const int version = number_of(database, "user_version");
  const int newest = static_cast<int>(migrations().size());
  if (version > newest) {
    throw InputError(file.string(),
                     "was written by a newer stillheap (store version " + std::to_string(version) +
                         ", this one knows " + std::to_string(newest) + ")",
                     "use the newer program");
  }
}

void refuse_damage(SQLite::Database& database, Check check, const fs::path& file) {
  const std::vector<std::string> damage = damage_of(database, check, file);
  if (damage.empty()) return;
  std::string what = "is damaged: " + damage.front();
  if (damage.size() > 1) what += " (and " + std::to_string(damage.size() - 1) + " more)";
  throw RunError(file.string(), what, "put the last backup in its place; keep the damaged file and its -wal");
}

void copy_whole(SQLite::Database& from, const fs::path& target) {
  const fs::path part = target.string() + ".part";
  std::error_code ignored;
  fs::remove(part, ignored);
  {
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
  fs::rename(part, target);
}

void migrate(Store::Connection& connection) {
  SQLite::Database& database = connection.database;
  const int newest = static_cast<int>(migrations().size());
  const int found = number_of(database, "user_version");
  if (found == newest) return;
  const fs::path old = connection.file.string() + ".v" + std::to_string(found);
  if (found > 0 && !fs::exists(old)) copy_whole(database, old);
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  // Read again: another program may have been first.
  for (int version = number_of(database, "user_version"); version < newest; ++version) {
    database.exec(migrations()[static_cast<std::size_t>(version)].sql);
  }
  database.exec("PRAGMA application_id = " + std::to_string(application_id));
  database.exec("PRAGMA user_version = " + std::to_string(newest));
  transaction.commit();
}

}  // namespace

void rethrow(const fs::path& file, const SQLite::Exception& error) {
  switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      throw RunError(file.string(), "another program has been writing for too long", "try again");
    case SQLITE_FULL:
      throw RunError(file.string(), "the disk is full", "make room and try again; nothing was stored");
    case SQLITE_NOTADB:
      throw InputError(file.string(), "is not a store of stillheap", "name another file, or move it away");
    case SQLITE_CORRUPT:
      throw RunError(file.string(), std::string("is damaged: ") + error.what(), "put the last backup in its place");
    case SQLITE_CANTOPEN:
    case SQLITE_READONLY:
      throw RunError(file.string(), std::string("cannot be opened for writing: ") + error.what(),
                     "see that the folder is there and may be written to");
    case SQLITE_IOERR:
      throw RunError(file.string(), std::string("cannot be read or written: ") + error.what(),
                     "see that the disk has room and is sound, and try again; nothing was stored");
    default:
      throw RunError(file.string(), std::string("the store says: ") + error.what(), "nothing was stored");
  }
}

Query::Query(Store::Connection& connection, std::string sql) : connection_(connection), sql_(std::move(sql)) {
  const auto found = connection_.at_rest.find(sql_);
  if (found == connection_.at_rest.end()) {
    statement_ = std::make_unique<SQLite::Statement>(connection_.database, sql_);
  } else {
    statement_ = std::move(found->second);
    connection_.at_rest.erase(found);
  }
}

Query::~Query() {
  statement_->tryReset();
  statement_->clearBindings();
  connection_.at_rest.emplace(sql_, std::move(statement_));
}

fs::path store_path(const fs::path& site_file) {
  fs::path path = site_file;
  return path.replace_extension(".records.sqlite");
}

Store Store::open(const fs::path& file, bool make, Check check) {
  if (!make && !fs::exists(file)) {
    throw InputError(file.string(), "there are no records yet", "note the first with: stillheap record");
  }
  return guarded(file, [&] {
    auto connection = std::unique_ptr<Connection>(new Connection{
        file, SQLite::Database(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, busy_timeout_ms), 0, {}});
    refuse_strangers(connection->database, file);
    set_up(connection->database);
    refuse_damage(connection->database, check, file);
    migrate(*connection);
    return Store(std::move(connection));
  });
}

Store::Store(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

const fs::path& Store::file() const noexcept { return connection_->file; }

fs::path Store::photo_folder() const {
  fs::path path = file();
  return path.replace_extension().replace_extension(".photos");
}

Transaction::Transaction(Store& store) : store_(store) {
  Store::Connection& connection = store.connection();
  // Inside another Transaction only the outermost one begins and commits.
  if (connection.open_transactions == 0) {
    guarded(connection.file, [&] { connection.database.exec("BEGIN IMMEDIATE"); });
  }
  ++connection.open_transactions;
}

Transaction::~Transaction() {
  if (!open_) return;
  Store::Connection& connection = store_.connection();
  if (--connection.open_transactions == 0) (void)connection.database.tryExec("ROLLBACK");
}

void Transaction::commit() {
  Store::Connection& connection = store_.connection();
  if (connection.open_transactions == 1) guarded(connection.file, [&] { connection.database.exec("COMMIT"); });
  --connection.open_transactions;
  open_ = false;
}

Savepoint::Savepoint(Store& store) : store_(store) {
  Store::Connection& connection = store.connection();
  guarded(connection.file, [&] { connection.database.exec("SAVEPOINT part"); });
}

Savepoint::~Savepoint() {
  if (open_) (void)store_.connection().database.tryExec("ROLLBACK TO part; RELEASE part");
}

void Savepoint::keep() {
  Store::Connection& connection = store_.connection();
  guarded(connection.file, [&] { connection.database.exec("RELEASE part"); });
  open_ = false;
}

std::vector<std::string> find_damage(const Store& store, Check check) {
  return damage_of(store.connection().database, check, store.file());
}

void backup(const Store& store, const fs::path& target) {
  if (fs::exists(target)) throw InputError(target.string(), "is there already", "name a new file for the backup");
  try {
    copy_whole(store.connection().database, target);
  } catch (const SQLite::Exception& error) {
    throw RunError(target.string(), std::string("the backup cannot be written: ") + error.what(),
                   "name another place with enough room");
  } catch (const fs::filesystem_error& error) {
    throw RunError(target.string(), std::string("the backup cannot be put in place: ") + error.what(),
                   "name another place");
  }
}

}  // namespace stillheap::record
