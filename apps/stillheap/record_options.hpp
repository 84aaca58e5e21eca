#pragma once
#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "core/quantity/quantity.hpp"
#include "yard/record/check.hpp"
#include "yard/record/doubt.hpp"
#include "yard/record/read.hpp"
#include "yard/record/write.hpp"

/// What the commands that work on the records have in common.
namespace stillheap::app {

/// Where the daily copies of the records are kept.
struct CopyOptions {
  std::string folder;  ///< empty: beside the site file
  bool none = false;
};
/// --backup-folder, or STILLHEAP_BACKUP, and --no-backup.
void add_copy_options(CLI::App& command, CopyOptions& options);
/// Their folder, for the yard of this site file; empty with --no-backup.
[[nodiscard]] std::filesystem::path copies_of(const CopyOptions& options, const std::filesystem::path& site);

struct RecordOptions {
  std::string site;  ///< the file, or a folder with site.toml
  std::string by;
  std::string zone;  ///< empty: this machine's
  std::string at;    ///< empty: now
  std::string id, corrects, why;
  bool json = false;
  bool sure = false;  ///< the unlikely is meant as it is written
  CopyOptions copies;
};

/// SITE and --json: all that reading the records needs.
void add_site_options(CLI::App& command, RecordOptions& options);
/// These and --by, --zone, --backup-folder, --no-backup: who notes.
void add_who_options(CLI::App& command, RecordOptions& options);
/// These and --at, --id, --corrects, --why: one entry.
void add_entry_options(CLI::App& command, RecordOptions& options);

/// --sure: what is asked back is meant.
void add_sure_option(CLI::App& command, RecordOptions& options);

/// The fill that --fill (its batch or id) or --vessel (what is in it now) names.
struct FillChoice {
  std::string batch, vessel;
};
void add_fill_options(CLI::App& command, FillChoice& choice);
[[nodiscard]] record::Fill find_fill(const record::Store& store, const FillChoice& choice);

/// Opens the store beside the site file, which must be there. `make`: when there is none yet.
[[nodiscard]] record::Store open_store(const RecordOptions& options, bool make,
                                       record::Check check = record::Check::brief);
/// Opens it to note something: the day's first makes the day's copy beforehand. That no copy could be made is told on
/// the error channel and stops nothing.
[[nodiscard]] record::Store open_to_note(const RecordOptions& options, bool make);
/// The units the site file asks for; metric while it cannot be read: a slip in it must not stop a reading.
[[nodiscard]] UnitSystem units_of(const RecordOptions& options);
[[nodiscard]] std::string zone_of(const RecordOptions& options);
[[nodiscard]] record::EntryMetadata mark_of(const RecordOptions& options);
/// --at in --zone, or now.
[[nodiscard]] record::Instant time_of(const RecordOptions& options);
/// The same; of a correction that names no --at, when the entry was that it corrects.
template <class Entry>
[[nodiscard]] record::Instant time_of(const record::Store& store, const RecordOptions& options,
                                      record::Instant Entry::*field) {
  if (options.at.empty() && !options.corrects.empty()) {
    if (const auto corrected = record::current<Entry>(store, options.corrects)) return (*corrected).*field;
  }
  return time_of(options);
}
/// Throws InputError when the time comes from a clock that stands before the filling: one that lost its battery.
void check_clock(const RecordOptions& options, const record::Fill& fill);

/// Reads an optional amount: nothing for an empty text.
[[nodiscard]] std::optional<double> maybe(const std::string& text, Dimension dimension, const char* option);

/// Id of the entry of this name among those that stand; an id is taken as it is. Throws InputError naming those there.
template <class Entry>
std::string id_of_name(const record::Store& store, const std::string& name, std::string Entry::*field,
                       const char* option);

/// "stored reading 018f...: 55 degC, core"; or JSON.
void print_stored(const RecordOptions& options, const char* word, const record::Stored& stored,
                  const std::string& what);

/// What the site file says of the yard; nothing while it cannot be read: a slip in it must not stop an entry.
[[nodiscard]] record::YardFacts facts_of(const RecordOptions& options);

/// Throws InputError with every doubt, unless --sure was given.
void ask_back(const RecordOptions& options, record::Doubts doubts);

/// Does work whose refusals name the store's fields of time; tells them as the option they come from, --at.
void as_options(const std::function<void()>& work);

/// Adds an entry with the options' mark and prints what came of it.
template <class Entry>
void store_entry(const RecordOptions& options, record::Store& store, Entry entry, const char* word,
                 const std::string& what) {
  entry.mark = mark_of(options);
  as_options([&] {
    record::refuse_impossible(entry);
    if (!options.sure) ask_back(options, record::asked_back(store, entry, facts_of(options)));
    print_stored(options, word, record::add(store, entry), what);
  });
}

}  // namespace stillheap::app
