#include "restore_command.hpp"

#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "core/base/error.hpp"
#include "record_options.hpp"
#include "site_path.hpp"
#include "yard/record/backup.hpp"

namespace stillheap::app {
namespace {

struct RestoreOptions : RecordOptions {
  std::string from, folder;
};

std::string words(const record::Holds& holds) {
  return std::to_string(holds.vessels) + " vessels, " + std::to_string(holds.fills) + " fills, " +
         std::to_string(holds.readings) + " readings, " + std::to_string(holds.events) + " events";
}

/// A copy with less than what is there is mostly an older one: asked back.
void ask_about_less(const RestoreOptions& options, const std::filesystem::path& store_file,
                    const std::filesystem::path& copy) {
  const std::optional<record::Holds> there = record::what_it_holds(store_file);
  const std::optional<record::Holds> comes = record::what_it_holds(copy);
  if (!there || !comes || comes->all() >= there->all()) return;
  ask_back(options, {{copy.string(),
                      "holds less than the records that are there: " + words(*comes) + " against " + words(*there),
                      "what is newer would lie in the folder set aside only; look again, or name another copy"}});
}

std::filesystem::path copy_of(const RestoreOptions& options, const std::filesystem::path& store_file) {
  if (!options.from.empty()) return options.from;
  const auto folder =
      options.folder.empty() ? record::backups_beside(store_file) : std::filesystem::path(options.folder);
  const auto last = record::last_copy(store_file, folder);
  if (!last) throw InputError(folder.string(), "holds no copy of this yard", "name a copy with --from FILE");
  return last->file;
}

void restore(const RestoreOptions& options) {
  const std::filesystem::path store_file = record::store_path(site_file(options.site));
  const std::filesystem::path copy = copy_of(options, store_file);
  ask_about_less(options, store_file, copy);
  const record::Restored done = record::restore(store_file, copy, record::now());
  const std::string aside = done.set_aside ? done.set_aside->string() : std::string{};
  if (options.json) {
    const nlohmann::json line = {{"from", copy.string()}, {"photos", done.photos}, {"set_aside", aside}};
    std::printf("%s\n", line.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace).c_str());
    return;
  }
  const std::optional<record::Holds> holds = record::what_it_holds(store_file);
  std::printf("restored and checked: %s from %s, %s; %zu photos put back\n", store_file.c_str(), copy.c_str(),
              holds ? words(*holds).c_str() : "", done.photos);
  if (!aside.empty()) std::printf("what was there is kept in %s\n", aside.c_str());
}

}  // namespace

void add_restore(CLI::App& app) {
  const auto options = std::make_shared<RestoreOptions>();
  CLI::App* command = app.add_subcommand("restore", "Put a copy of the records in their place; keeps what is there");
  add_site_options(*command, *options);
  CLI::Option* from = command->add_option("--from", options->from, "The copy; else the newest of the daily ones");
  command->add_flag("--sure", options->sure, "Put it back though it holds less than what is there");
  command->add_option("--backup-folder", options->folder, "Folder of the daily copies; else beside the site file")
      ->excludes(from);
  command->callback([options] { restore(*options); });
}

}  // namespace stillheap::app
