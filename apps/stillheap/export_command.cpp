#include <cstdio>
#include <fstream>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "planning/plan/staged_folder.hpp"
#include "present/sheet/batch_record_page.hpp"
#include "record_options.hpp"
#include "yard/record/backup.hpp"
#include "yard/record/batch.hpp"
#include "yard/record/calendar.hpp"
#include "yard/record/export.hpp"
#include "yard/state/state.hpp"
#include "yard_site.hpp"

namespace stillheap::app {
namespace {

struct ExportOptions : RecordOptions {
  std::string out, backup, batch;
};

void write_file(const std::filesystem::path& file, const std::function<void(std::ostream&)>& write) {
  std::ofstream out(file, std::ios::binary);
  write(out);
  out.close();
  if (!out) throw RunError(file.string(), "cannot be written", "choose a folder that can be written and has room");
}

void write_all(const record::Store& store, const std::filesystem::path& folder, const ExportOptions& options) {
  for (const std::string& kind : record::exported_kinds()) {
    write_file(folder / (kind + ".csv"), [&](std::ostream& to) { record::write_csv(store, kind, to); });
  }
  write_file(folder / "records.json", [&](std::ostream& to) { record::write_json(store, to); });
  plan::write_text(folder / "due.ics", record::calendar_of(store, record::now(), zone_of(options),
                                                           rhythm_of(site_of(options), store, zone_of(options))));
}

void export_records(const ExportOptions& options) {
  if (options.out.empty() && options.backup.empty()) {
    throw InputError("export", "names nothing to write", "give -o DIR, --backup FILE or both");
  }
  const record::Store store = open_store(options, false);
  if (!options.backup.empty()) {
    const record::Copied made = record::back_up(store, options.backup);
    if (!options.json) std::printf("copied and checked: %s, %zu photos\n", options.backup.c_str(), made.photos);
    for (const std::string& one : made.damage) std::fprintf(stderr, "not in the copy: %s\n", one.c_str());
  }
  if (!options.out.empty()) {
    plan::StagedFolder folder(options.out);
    if (options.batch.empty()) {
      write_all(store, folder.path(), options);
    } else {
      const record::Fill fill = find_fill(store, {options.batch, {}});
      write_file(folder.path() / "batch.json",
                 [&](std::ostream& to) { record::write_batch_json(store, fill.mark.thing, to); });
      const std::optional<site::Site> site = site_of(options);
      const auto vessel = record::current<record::Vessel>(store, fill.vessel_id);
      const vessel::Design* design = site && vessel ? yard::design_of(*vessel, &*site) : nullptr;
      sheet::write_batch_record(store, fill.mark.thing, folder.path() / "batch.pdf",
                                {units_of(options), zone_of(options), design});
    }
    folder.commit();
    if (!options.json) std::printf("written to %s\n", options.out.c_str());
  }
  if (options.json) {
    const nlohmann::json done = {{"folder", options.out}, {"backup", options.backup}};
    std::printf("%s\n", done.dump().c_str());
  }
}

}  // namespace

void add_export(CLI::App& app) {
  const auto options = std::make_shared<ExportOptions>();
  CLI::App* command = app.add_subcommand("export", "Write the records as CSV, JSON and a calendar; copy the store");
  add_site_options(*command, *options);
  command->add_option("--zone", options->zone, "Time zone of the calendar and of printed times; else this machine's");
  command->add_option("-o,--output", options->out, "Folder to write into; made if it does not exist")->type_name("DIR");
  command->add_option("--batch", options->batch, "Only this batch: its record to print and its data, into DIR");
  command
      ->add_option("--backup", options->backup,
                   "Copy of the whole store and its photos, while others go on using it; never overwrites")
      ->type_name("FILE");
  command->callback([options] { export_records(*options); });
}

}  // namespace stillheap::app
