#include "yard/record/store.hpp"

#include <sqlite3.h>

#include <chrono>
#include <system_error>
#include <thread>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/in_place.hpp"
#include "yard/record/connection.hpp"
#include "yard/record/copy.hpp"
#include "yard/record/damage.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/lost.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

int number_of(SQLite::Database& database, const char* pragma) {
  return database.execAndGet(std::string("PRAGMA ") + pragma).getInt();
}

/// Whether the name of the open file leads to another one by now, or to none. SQLite knows it of the store, not of its
/// log.
bool was_moved(const SQLite::Database& database) {
  int moved = 0;
  return sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK && moved != 0;
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

/// What lies beside a store that is missing or empty and tells that there was one; empty when nothing does.
std::string left_over(const fs::path& file) {
  std::error_code ignored;
  for (const char* const ending : {"-wal", "-journal"}) {
    const fs::path beside = file.string() + ending;
    const auto size = fs::file_size(beside, ignored);
    if (!ignored && size > 0) return beside.filename().string();
  }
  const fs::path check = fs::path(file).replace_extension(".check.json");
  if (fs::exists(check, ignored)) return check.filename().string();
  const fs::path photos = photos_beside(file);
  if (fs::is_directory(photos, ignored) && !fs::is_empty(photos, ignored)) return photos.filename().string();
  return {};
}

/// A new store in its place would be taken for the old one, and its log thrown away.
void refuse_lost(const fs::path& file) {
  std::error_code ignored;
  const bool there = fs::exists(file, ignored);
  if (there && (!fs::is_regular_file(file, ignored) || fs::file_size(file, ignored) > 0)) return;
  const std::string left = left_over(file);
  if (left.empty()) return;
  throw InputError(file.string(),
                   std::string(there ? "is empty" : "is missing") + ", but " + left +
                       " is still there: the records were moved away or lost; nothing was changed",
                   "put the store back beside it, or take the last copy: stillheap restore SITE --from COPY; to begin "
                   "with no records, move " +
                       left + " away first");
}

void migrate(Store::Connection& connection) {
  constexpr int patience_ms = 120000;  // chosen: another program may be copying and changing a large store
  SQLite::Database& database = connection.database;
  const int newest = static_cast<int>(migrations().size());
  if (number_of(database, "user_version") == newest) return;
  database.setBusyTimeout(patience_ms);
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  const int found = number_of(database, "user_version");  // read again: another program may have been first
  if (found > 0 && found < newest) {
    // Nobody else changes the store now; the copy is made by a connection that sees what stands on the disk.
    SQLite::Database unchanged(connection.file.string(), SQLite::OPEN_READONLY, patience_ms);
    (void)copy_whole(unchanged, connection.file.string() + ".v" + std::to_string(found));
  }
  for (int version = found; version < newest; ++version) {
    database.exec(migrations()[static_cast<std::size_t>(version)].sql);
  }
  database.exec("PRAGMA application_id = " + std::to_string(application_id));
  database.exec("PRAGMA user_version = " + std::to_string(newest));
  transaction.commit();
  database.setBusyTimeout(Store::busy_timeout_ms);
}

/// Makes an empty store under a name of its own and gives it its name when it is whole. Somebody may be first.
void make_new(const fs::path& file) {
  const fs::path part = file.string() + ".new-" + new_id();
  try {
    {
      Store::Connection made{
          part, SQLite::Database(part.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE), 0, {}};
      set_up(made.database);
      migrate(made);
      (void)made.database.tryExec("PRAGMA wal_checkpoint(TRUNCATE)");
    }
    if (!put_in_place(part, file)) remove_store(part);
  } catch (...) {
    remove_store(part);
    throw;
  }
}

/// For looking only, where nothing may be written: SQLite then needs no files beside the store, which must be none.
std::unique_ptr<Store::Connection> open_to_look(const fs::path& file) {
  std::error_code ignored;
  const fs::path log = file.string() + "-wal";
  if (const auto size = fs::file_size(log, ignored); !ignored && size > 0) {
    throw RunError(file.string(),
                   "cannot be looked at here: its log " + log.filename().string() + " has yet to be taken in",
                   "open it once where it may be written to");
  }
  std::string name = "file:";
  for (const char one : fs::absolute(file).string()) {
    const bool plain = std::string_view("?#%").find(one) == std::string_view::npos;
    name += plain ? std::string(1, one) : one == '?' ? "%3f" : one == '#' ? "%23" : "%25";
  }
  auto connection = std::unique_ptr<Store::Connection>(new Store::Connection{
      file, SQLite::Database(name + "?immutable=1", SQLite::OPEN_READONLY | SQLite::OPEN_URI), 0, {}});
  refuse_strangers(connection->database, file);
  const int version = number_of(connection->database, "user_version");
  if (version == static_cast<int>(migrations().size())) return connection;
  throw RunError(file.string(), "was written by an older stillheap and cannot be brought up to date here",
                 "open it once where it may be written to");
}

bool means_read_only(const SQLite::Exception& error) {
  return error.getErrorCode() == SQLITE_READONLY || error.getErrorCode() == SQLITE_CANTOPEN;
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

fs::path photos_beside(const fs::path& store_file) {
  fs::path path = store_file;
  return path.replace_extension().replace_extension(".photos");
}

namespace {

/// SQLite by itself looks again ever less often, up to every 100 ms, and so misses the pauses that a long import makes
/// for others (csv_import.cpp).
void look_again_evenly(SQLite::Database& database) {
  static constexpr std::chrono::milliseconds between{25};  // chosen
  const auto wait = [](void*, int times) {
    if (times * between.count() >= Store::busy_timeout_ms) return 0;
    std::this_thread::sleep_for(between);
    return 1;
  };
  sqlite3_busy_handler(database.getHandle(), wait, nullptr);
}

std::unique_ptr<Store::Connection> open_to_write(const fs::path& file, Check check) {
  auto connection = std::unique_ptr<Store::Connection>(new Store::Connection{
      file, SQLite::Database(file.string(), SQLite::OPEN_READWRITE, Store::busy_timeout_ms), 0, {}});
  refuse_strangers(connection->database, file);
  set_up(connection->database);
  refuse_damage(connection->database, check, file);
  migrate(*connection);
  look_again_evenly(connection->database);
  return connection;
}

}  // namespace

Store Store::open(const fs::path& file, bool make, Check check) {
  refuse_lost(file);
  if (!make && !fs::exists(file)) {
    throw InputError(file.string(), "there are no records yet", "note the first with: stillheap record");
  }
  return guarded(file, [&] {
    if (!fs::exists(file)) make_new(file);
    try {
      return Store(open_to_write(file, check));
    } catch (const SQLite::Exception& error) {
      if (make || !means_read_only(error)) throw;
    }
    return Store(open_to_look(file));
  });
}

Store::Store(std::unique_ptr<Connection> connection) : connection_(std::move(connection)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

const fs::path& Store::file() const noexcept { return connection_->file; }

fs::path Store::photo_folder() const { return photos_beside(file()); }

void refuse_moved(const Store& store) {
  const Store::Connection& connection = store.connection();
  if (!was_moved(connection.database)) return;
  throw RunError(connection.file.string(),
                 "was moved, deleted or replaced while this program had it open; nothing was stored",
                 "end the program, put the store back (or: stillheap restore SITE --from COPY), and start again");
}

Transaction::Transaction(Store& store) : store_(store) {
  Store::Connection& connection = store.connection();
  // Inside another Transaction only the outermost one begins and commits.
  if (connection.open_transactions == 0) {
    refuse_moved(store);
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
  if (connection.open_transactions == 1) {
    refuse_moved(store_);
    guarded(connection.file, [&] { connection.database.exec("COMMIT"); });
  }
  --connection.open_transactions;
  open_ = false;
  if (connection.open_transactions == 0) refuse_moved(store_);  // just now? Then it is on no disk that anybody finds.
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

}  // namespace stillheap::record
