#include "yard/record/backup.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <map>
#include <set>
#include <system_error>

#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "core/base/in_place.hpp"
#include "core/base/whole_file.hpp"
#include "yard/record/connection.hpp"
#include "yard/record/copy.hpp"
#include "yard/record/ident.hpp"
#include "yard/record/lost.hpp"
#include "yard/record/photo.hpp"
#include "yard/record/read.hpp"
#include "yard/record/schema.hpp"

namespace stillheap::record {
namespace {

namespace fs = std::filesystem;

constexpr const char* ending = ".sqlite";

/// "site.records-" of "yard/site.records.sqlite".
std::string stem_of(const fs::path& store_file) { return store_file.stem().string() + "-"; }

/// Copies in a folder by their day, "2026-05-03".
std::map<std::string, fs::path> copies_in(const fs::path& store_file, const fs::path& folder) {
  std::map<std::string, fs::path> found;
  std::error_code failure;
  const std::string stem = stem_of(store_file);
  for (fs::directory_iterator one(folder, failure), end; !failure && one != end; one.increment(failure)) {
    const std::string name = one->path().filename().string();
    if (!name.starts_with(stem) || !name.ends_with(ending)) continue;
    const std::string day = name.substr(stem.size(), name.size() - stem.size() - std::string(ending).size());
    if (date::parse_iso(day)) found.emplace(day, one->path());
  }
  return found;
}

void rotate(const fs::path& store_file, const fs::path& folder, const DailyRule& rule) {
  const auto copies = copies_in(store_file, folder);
  std::set<std::string> kept;
  std::map<std::string, std::string> first_of_month;
  for (const auto& [day, file] : copies) first_of_month.emplace(day.substr(0, 7), day);
  int left = rule.days;
  for (auto one = copies.rbegin(); one != copies.rend() && left > 0; ++one, --left) kept.insert(one->first);
  left = rule.months;
  for (auto one = first_of_month.rbegin(); one != first_of_month.rend() && left > 0; ++one, --left) {
    kept.insert(one->second);
  }
  std::error_code ignored;
  for (const auto& [day, file] : copies) {
    if (!kept.contains(day)) fs::remove(file, ignored);
  }
}

/// Copies the photos that stand in the records beside the copy; each is named by the hash of its bytes.
void copy_photos(const Store& store, Copied& made) {
  const fs::path folder = photos_beside(made.file);
  for (const Photo& one : all<Photo>(store)) {
    const fs::path from = photo_file(store, one);
    const fs::path to = folder / from.filename();
    if (is_sound_photo(to, one)) {
      ++made.photos;
      continue;
    }
    const std::string bytes = read_whole_file(from);
    if (sha256_hex(bytes) != one.sha256) {
      made.damage.push_back(from.string() + (fs::exists(from) ? " was changed" : " is missing"));
      continue;
    }
    fs::create_directories(folder);
    write_durably(to, bytes);
    ++made.photos;
  }
}

/// The process that has the store open, by the lock that SQLite holds on its -shm file: byte 128, as the file format's
/// documentation (WAL-mode File Format, section 2.3) has it. 0: none.
pid_t user_of(const fs::path& store_file) {
  const int handle = ::open((store_file.string() + "-shm").c_str(), O_RDWR | O_CLOEXEC);
  if (handle < 0) return 0;
  constexpr off_t in_use = 128;
  struct flock lock {};
  lock.l_type = F_WRLCK;
  lock.l_whence = SEEK_SET;
  lock.l_start = in_use;
  lock.l_len = 1;
  const bool asked = ::fcntl(handle, F_GETLK, &lock) == 0;
  ::close(handle);
  return asked && lock.l_type != F_UNLCK ? lock.l_pid : 0;
}

std::string stamp(Instant at) {
  std::string text = to_utc_text(at).substr(0, 19);
  std::erase(text, ':');
  return text;
}

/// Moves what is there into a folder of its own.
std::optional<fs::path> set_aside(const fs::path& store_file, Instant at) {
  std::optional<fs::path> folder;
  for (const char* const one : {"", "-wal", "-shm", "-journal"}) {
    const fs::path file = store_file.string() + one;
    if (!fs::exists(file)) continue;
    if (!folder) {
      // the whole id: its first signs are the time, the same for restores that follow each other
      folder = store_file.string() + ".before-" + stamp(at) + "-" + new_id();
      fs::create_directories(folder->parent_path());
      if (!fs::create_directory(*folder)) throw RunError(folder->string(), "is there already", "try again");
    }
    fs::rename(file, *folder / file.filename());
  }
  if (folder) sync_folder(store_file.parent_path());
  return folder;
}

/// A checked copy of the copy beside the store, under a name of its own.
fs::path bring_in(const fs::path& store_file, const fs::path& copy) {
  const fs::path part = store_file.string() + ".restore-" + new_id();
  SQLite::Database from(copy.string(), SQLite::OPEN_READONLY, Store::busy_timeout_ms);
  if (from.execAndGet("PRAGMA application_id").getInt() != application_id) {
    throw InputError(copy.string(), "is not a store of stillheap", "name a copy that export --backup or serve made");
  }
  (void)copy_whole(from, part);
  return part;
}

std::size_t put_photos_back(const Store& store, const fs::path& from_folder) {
  std::size_t count = 0;
  for (const Photo& one : all<Photo>(store)) {
    const fs::path to = photo_file(store, one);
    const fs::path from = from_folder / to.filename();
    if (is_sound_photo(to, one) || !is_sound_photo(from, one)) continue;
    fs::create_directories(to.parent_path());
    write_durably(to, read_whole_file(from));
    ++count;
  }
  return count;
}

}  // namespace

Copied back_up(const Store& store, const fs::path& target) {
  const InputError there{target.string(), "is there already", "name a new file for the backup"};
  if (fs::exists(target)) throw InputError(there);
  try {
    if (!copy_whole(store.connection().database, target)) throw InputError(there);
    Copied made{target, 0, {}};
    copy_photos(store, made);
    return made;
  } catch (const SQLite::Exception& error) {
    throw RunError(target.string(), std::string("the backup cannot be written: ") + error.what(),
                   "name another place with enough room");
  } catch (const fs::filesystem_error& error) {
    throw RunError(target.string(), std::string("the backup cannot be put in place: ") + error.what(),
                   "name another place");
  }
}

void backup(const Store& store, const fs::path& target) { (void)back_up(store, target); }

fs::path backups_beside(const fs::path& store_file) {
  fs::path path = store_file;
  return path.replace_extension().replace_extension(".backups");
}

std::optional<Copied> keep_daily(const fs::path& store_file, const fs::path& folder, Instant at,
                                 const DailyRule& rule) {
  const std::string day = date::to_iso(local_day(at, here()));
  const fs::path target = folder / (stem_of(store_file) + day + ending);
  if (fs::exists(target)) return std::nullopt;
  std::error_code failure;
  fs::create_directories(folder, failure);
  if (failure)
    throw RunError(folder.string(), "cannot be made: " + failure.message(), "name another folder for copies");
  std::optional<Copied> made;
  try {
    made = back_up(Store::open(store_file, false), target);
  } catch (const InputError&) {
    if (!fs::exists(target)) throw;  // else another program was first
  }
  rotate(store_file, folder, rule);
  return made;
}

std::optional<LastCopy> last_copy(const fs::path& store_file, const fs::path& folder) {
  const auto copies = copies_in(store_file, folder);
  if (copies.empty()) return std::nullopt;
  const fs::path& file = copies.rbegin()->second;
  std::error_code failure;
  const auto written = fs::last_write_time(file, failure);
  if (failure) return std::nullopt;
  const auto since = std::chrono::duration_cast<std::chrono::seconds>(fs::file_time_type::clock::now() - written);
  return LastCopy{file, now() - since};
}

std::optional<Holds> what_it_holds(const fs::path& store_file) {
  try {
    const SQLite::Database from(store_file.string(), SQLite::OPEN_READONLY, Store::busy_timeout_ms);
    const auto count = [&](const char* table) {
      SQLite::Statement query(from, std::string("SELECT count(*) FROM ") + table);
      return query.executeStep() ? query.getColumn(0).getInt64() : 0;
    };
    return Holds{count("vessels"), count("fills"), count("readings"), count("events")};
  } catch (const SQLite::Exception&) {
    return std::nullopt;  // damaged, or no store: that is mostly why one restores
  }
}

Restored restore(const fs::path& store_file, const fs::path& copy, Instant at) {
  if (!fs::is_regular_file(copy)) throw InputError(copy.string(), "is not there", "name the copy to be put back");
  std::error_code ignored;
  if (fs::equivalent(copy, store_file, ignored)) {
    throw InputError(copy.string(), "is the store itself", "name a copy of it");
  }
  if (const pid_t user = user_of(store_file); user != 0) {
    throw RunError(store_file.string(), "is in use by another program (process " + std::to_string(user) + ")",
                   "end it first, then restore");
  }
  Restored done;
  const fs::path part = guarded(copy, [&] { return bring_in(store_file, copy); });
  try {
    done.set_aside = set_aside(store_file, at);
    if (!put_in_place(part, store_file)) {
      throw RunError(store_file.string(), "was made anew by another program meanwhile", "end it first, then restore");
    }
  } catch (const fs::filesystem_error& error) {
    remove_store(part);
    throw RunError(store_file.string(), std::string("cannot be set aside: ") + error.what(),
                   "see that the folder may be written to");
  } catch (...) {
    remove_store(part);
    throw;
  }
  done.photos = put_photos_back(Store::open(store_file, false), photos_beside(copy));
  return done;
}

}  // namespace stillheap::record
