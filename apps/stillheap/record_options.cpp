#include "record_options.hpp"

#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "site_path.hpp"
#include "yard/record/backup.hpp"
#include "yard/state/yard_facts.hpp"

namespace stillheap::app {

void add_site_options(CLI::App& command, RecordOptions& options) {
  command.add_option("SITE", options.site, "Site file, or a folder with site.toml; the records stand beside it")
      ->required();
  command.add_flag("--json", options.json, "Print JSON instead of sentences");
}

void add_who_options(CLI::App& command, RecordOptions& options) {
  add_site_options(command, options);
  command.add_option("--by", options.by, "Initials of who notes this")->required()->envname("STILLHEAP_BY");
  command.add_option("--zone", options.zone, "Time zone (\"Europe/Paris\", \"+02:00\"); else this machine's");
  add_copy_options(command, options.copies);
}

void add_copy_options(CLI::App& command, CopyOptions& options) {
  command
      .add_option("--backup-folder", options.folder,
                  "Folder of the daily copies, on another disk if there is one; else beside the site file")
      ->envname("STILLHEAP_BACKUP");
  command.add_flag("--no-backup", options.none, "Keep no daily copies");
}

void add_entry_options(CLI::App& command, RecordOptions& options) {
  add_who_options(command, options);
  command.add_option("--at", options.at, "When, as 2026-05-03T14:05; else now");
  command.add_option("--id", options.id, "UUID of the entry, so that sending it twice stores it once; else a new one");
  command.add_option("--corrects", options.corrects,
                     "Id of the entry this one stands for from now on; its time and place stay where none is named");
  command.add_option("--why", options.why, "Why it is corrected");
  add_sure_option(command, options);
}

void add_sure_option(CLI::App& command, RecordOptions& options) {
  command.add_flag("--sure", options.sure, "Store it though it is unlikely; what cannot be is refused all the same");
}

void add_fill_options(CLI::App& command, FillChoice& choice) {
  CLI::Option* fill = command.add_option("--fill", choice.batch, "The fill, by its batch name or id");
  command.add_option("--vessel", choice.vessel, "The fill that is in this vessel now")->excludes(fill);
}

record::Fill find_fill(const record::Store& store, const FillChoice& choice) {
  if (choice.batch.empty() && choice.vessel.empty()) {
    throw InputError("--fill", "is missing", "name the batch with --fill or the vessel with --vessel");
  }
  if (!choice.batch.empty()) {
    const std::string id = id_of_name(store, choice.batch, &record::Fill::batch, "--fill");
    return record::current<record::Fill>(store, id).value();
  }
  for (const record::VesselGlance& glance : record::yard(store)) {
    if (glance.vessel.name != choice.vessel) continue;
    if (glance.fill) return *glance.fill;
    throw InputError("--vessel", "= \"" + choice.vessel + "\" is empty", "name the batch with --fill");
  }
  (void)id_of_name(store, choice.vessel, &record::Vessel::name, "--vessel");
  throw InputError("--vessel", "= \"" + choice.vessel + "\" is not in the records", "name a vessel of this yard");
}

record::Store open_store(const RecordOptions& options, bool make, record::Check check) {
  const std::filesystem::path file = site_file(options.site);
  std::error_code unreadable;
  if (!std::filesystem::exists(file, unreadable)) {
    throw InputError(file.string(), unreadable ? "cannot be read: " + unreadable.message() : "is not there",
                     "name the site file, or make one with: stillheap init");
  }
  return record::Store::open(record::store_path(file), make, check);
}

std::filesystem::path copies_of(const CopyOptions& options, const std::filesystem::path& site) {
  if (options.none) return {};
  return options.folder.empty() ? record::backups_beside(record::store_path(site))
                                : std::filesystem::path(options.folder);
}

record::Store open_to_note(const RecordOptions& options, bool make) {
  const std::filesystem::path site = site_file(options.site);
  const bool is_new = !std::filesystem::exists(record::store_path(site));
  record::Store store = open_store(options, make);
  const std::filesystem::path folder = copies_of(options.copies, site);
  if (is_new || folder.empty()) return store;
  try {
    const auto made = record::keep_daily(store.file(), folder, record::now());
    for (const std::string& one : made ? made->damage : std::vector<std::string>{})
      std::fprintf(stderr, "not in the copy of today: %s\n", one.c_str());
  } catch (const Error& error) {
    std::fprintf(stderr, "no copy of today was made: %s\n", error.what());
  }
  return store;
}

UnitSystem units_of(const RecordOptions& options) {
  try {
    return site::read_site(site_file(options.site)).units;
  } catch (const Error&) {
    return UnitSystem::metric;
  }
}

record::YardFacts facts_of(const RecordOptions& options) {
  try {
    return yard::facts_of(site::read_site(site_file(options.site)));
  } catch (const Error&) {
    return {};
  }
}

void ask_back(const RecordOptions& options, record::Doubts doubts) {
  if (options.sure || doubts.empty()) return;
  doubts.push_back({"--sure", "is not given, so nothing was stored", "add it when the entry is right as it stands"});
  throw InputError(std::move(doubts));
}

void as_options(const std::function<void()>& work) {
  try {
    work();
  } catch (const InputError& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& problem : problems) {
      for (const char* const field : {": sampled_at_s", ": received_s", ": filled_s", ": taken_s", ": at_s"}) {
        if (!problem.where.ends_with(field)) continue;
        problem.where = problem.where.substr(0, problem.where.size() - std::string_view(field).size()) + ": --at";
      }
    }
    throw InputError(std::move(problems));
  }
}

std::string zone_of(const RecordOptions& options) { return options.zone.empty() ? record::here() : options.zone; }

record::EntryMetadata mark_of(const RecordOptions& options) {
  record::EntryMetadata mark;
  mark.id = options.id;
  mark.by = options.by;
  mark.zone = zone_of(options);
  mark.corrects = options.corrects;
  mark.reason = options.why;
  return mark;
}

record::Instant time_of(const RecordOptions& options) {
  return options.at.empty() ? record::now() : record::parse_instant(options.at, zone_of(options), "--at");
}

void check_clock(const RecordOptions& options, const record::Fill& fill) {
  if (!options.at.empty() || record::now() >= fill.filled_at) return;
  const std::string zone = zone_of(options);
  throw InputError("--at",
                   "is not given, and this machine's clock says " + record::to_local_text(record::now(), zone) +
                       ", before the vessel was filled (" + record::to_local_text(fill.filled_at, zone) + ")",
                   "set the clock, or say when with --at");
}

std::optional<double> maybe(const std::string& text, Dimension dimension, const char* option) {
  if (text.empty()) return std::nullopt;
  return quantity::parse(text, dimension, option);
}

template <class Entry>
std::string id_of_name(const record::Store& store, const std::string& name, std::string Entry::*field,
                       const char* option) {
  if (record::current<Entry>(store, name)) return name;
  std::string there;
  for (const Entry& one : record::all<Entry>(store)) {
    if (one.*field == name) return one.mark.thing;
    there += (there.empty() ? "" : ", ") + one.*field;
  }
  throw InputError(option, "= \"" + name + "\" is not in the records",
                   there.empty() ? "note it first" : "there are: " + there);
}

template std::string id_of_name(const record::Store&, const std::string&, std::string record::Fill::*, const char*);
template std::string id_of_name(const record::Store&, const std::string&, std::string record::Vessel::*, const char*);
template std::string id_of_name(const record::Store&, const std::string&, std::string record::Lot::*, const char*);

void print_stored(const RecordOptions& options, const char* word, const record::Stored& stored,
                  const std::string& what) {
  const char* outcome = stored.outcome == record::Outcome::stored  ? "stored"
                        : stored.outcome == record::Outcome::known ? "known"
                                                                   : "duplicate";
  if (options.json) {
    const nlohmann::json line = {{"outcome", outcome}, {"kind", word}, {"id", stored.id}};
    std::printf("%s\n", line.dump().c_str());
    return;
  }
  const char* words = stored.outcome == record::Outcome::stored  ? "stored"
                      : stored.outcome == record::Outcome::known ? "was stored already:"
                                                                 : "there already is one that says the same:";
  std::printf("%s %s %s: %s\n", words, word, stored.id.c_str(), what.c_str());
}

}  // namespace stillheap::app
