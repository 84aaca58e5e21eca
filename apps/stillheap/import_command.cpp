#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>

#include "commands.hpp"
#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "record_options.hpp"
#include "yard/record/csv_import.hpp"
#include "yard/record/due.hpp"
#include "yard/record/log_import.hpp"
#include "yard/record/read.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;

constexpr std::size_t most_shown = 20;

struct ImportOptions : RecordOptions {
  FillChoice fill;
  std::string file, source;
  record::CsvMapping mapping;
  std::string logger_zone;
  std::vector<std::string> probes;
  bool preview = false, take_good = false, plan = false, replace = false, log = false;
};

/// The mapping the options give; nothing when they give none, then the kept one counts.
std::optional<record::CsvMapping> given_mapping(const ImportOptions& options) {
  if (options.probes.empty()) return std::nullopt;
  record::CsvMapping mapping = options.mapping;
  mapping.zone = options.logger_zone.empty() ? zone_of(options) : options.logger_zone;
  for (const std::string& probe : options.probes) mapping.probes.push_back(record::parse_probe(probe, "--probe"));
  return mapping;
}

json cells_json(const std::vector<record::Refusal>& list) {
  json listed = json::array();
  for (const record::Refusal& one : list) {
    listed.push_back({{"line", one.line}, {"column", one.column}, {"value", one.value}, {"why", one.why}});
  }
  return listed;
}

json preview_json(const record::CsvPreview& preview, std::size_t stored, bool done) {
  return {{"rows", preview.rows},
          {"good", preview.readings.size()},
          {"known", preview.known},
          {"nothing", preview.nothing},
          {"held", cells_json(preview.held)},
          {"refused", cells_json(preview.refused)},
          {"notes", preview.notes},
          {"stored", stored},
          {"done", done}};
}

void print_readings(const record::CsvPreview& preview, UnitSystem units) {
  for (std::size_t i = 0; i < std::min<std::size_t>(preview.readings.size(), 3); ++i) {
    const record::Reading& one = preview.readings[i];
    std::printf("  %s  %s  %s\n", record::to_local_text(one.at, preview.mapping.zone).c_str(),
                record::value_text(one.measure, one.value, units).c_str(), record::words(one.place, units).c_str());
  }
  if (preview.readings.size() > 3) std::printf("  ... and %zu more\n", preview.readings.size() - 3);
}

void print_cells(const char* word, const std::vector<record::Refusal>& cells) {
  for (std::size_t i = 0; i < std::min(cells.size(), most_shown); ++i) {
    const record::Refusal& one = cells[i];
    std::printf("%s: line %zu%s%s: \"%s\" %s\n", word, one.line, one.column.empty() ? "" : ", column ",
                one.column.c_str(), one.value.c_str(), one.why.c_str());
  }
  if (cells.size() > most_shown) std::printf("%s: %zu more; --json lists all\n", word, cells.size() - most_shown);
}

void print_all_cells(const std::vector<record::Refusal>& held, const std::vector<record::Refusal>& refused) {
  print_cells("held", held);
  if (!held.empty()) std::printf("held: unlikely, so not stored; the same command with --sure stores them too\n");
  print_cells("refused", refused);
}

std::string counted(std::size_t count, const char* one, const char* several) {
  return std::to_string(count) + ' ' + (count == 1 ? one : several);
}

void print_preview(const record::CsvPreview& preview, UnitSystem units) {
  std::printf("%s: %s; %s to store, %zu known already, %s nothing, %zu held, %zu refused\n", preview.file.c_str(),
              counted(preview.rows, "row", "rows").c_str(),
              counted(preview.readings.size(), "reading", "readings").c_str(), preview.known,
              counted(preview.nothing, "cell holds", "cells hold").c_str(), preview.held.size(),
              preview.refused.size());
  print_readings(preview, units);
  for (const std::string& note : preview.notes) std::printf("note: %s\n", note.c_str());
  print_all_cells(preview.held, preview.refused);
}

/// Throws InputError where a refused cell kept everything out, or where nothing at all was good. `good`: cells that
/// can be stored or are in the records.
void complain(const ImportOptions& options, bool went_in, std::size_t good, std::size_t refused, std::size_t held) {
  if (!went_in && !options.preview) {
    throw InputError(options.file, "nothing was stored; refused: " + std::to_string(refused),
                     "mend them, or store the others with --take-good");
  }
  if (good == 0 && refused + held > 0) {
    throw InputError(options.file,
                     "holds nothing that can be stored as it is; refused: " + std::to_string(refused) +
                         ", held: " + std::to_string(held),
                     "see the reasons above; --sure stores what is held");
  }
}

void import_readings(const ImportOptions& options) {
  if (options.source.empty()) throw InputError("--source", "is missing", "give the logger a name");
  record::Store store = open_to_note(options, false);
  record::CsvRequest request{options.file,      options.source, given_mapping(options), {}, mark_of(options),
                             facts_of(options), options.sure};
  request.fill_id = find_fill(store, options.fill).mark.thing;
  const record::CsvPreview preview = record::preview_csv(store, request);
  const bool goes_in = !options.preview && (preview.refused.empty() || options.take_good);
  const std::size_t stored = goes_in ? record::import_csv(store, preview) : 0;
  if (options.json) {
    std::printf("%s\n",
                preview_json(preview, stored, goes_in).dump(2, ' ', false, json::error_handler_t::replace).c_str());
  } else {
    print_preview(preview, units_of(options));
    if (goes_in) std::printf("stored %s\n", counted(stored, "reading", "readings").c_str());
  }
  complain(options, goes_in, preview.readings.size() + preview.known, preview.refused.size(), preview.held.size());
}

json log_json(const record::LogPreview& preview, std::size_t stored, bool done) {
  return {{"rows", preview.rows},
          {"good", preview.good()},
          {"known", preview.known},
          {"held", cells_json(preview.held)},
          {"refused", cells_json(preview.refused)},
          {"stored", stored},
          {"done", done}};
}

void print_log(const record::LogPreview& preview) {
  std::printf("%s: %s; %s and %s to store, %zu known already, %zu held, %zu refused\n", preview.file.c_str(),
              counted(preview.rows, "row", "rows").c_str(),
              counted(preview.readings.size(), "reading", "readings").c_str(),
              counted(preview.events.size(), "event", "events").c_str(), preview.known, preview.held.size(),
              preview.refused.size());
  print_all_cells(preview.held, preview.refused);
}

void import_log_sheet(const ImportOptions& options) {
  record::Store store = open_to_note(options, false);
  record::LogRequest request{options.file, {}, mark_of(options), facts_of(options), options.sure};
  request.fill_id = find_fill(store, options.fill).mark.thing;
  const record::LogPreview preview = record::preview_log(store, request);
  const bool goes_in = !options.preview && (preview.refused.empty() || options.take_good);
  const std::size_t stored = goes_in ? record::import_log(store, preview) : 0;
  if (options.json) {
    std::printf("%s\n", log_json(preview, stored, goes_in).dump(2, ' ', false, json::error_handler_t::replace).c_str());
  } else {
    print_log(preview);
    if (goes_in) std::printf("stored %s\n", counted(stored, "entry", "entries").c_str());
  }
  complain(options, goes_in, preview.good() + preview.known, preview.refused.size(), preview.held.size());
}

/// A plan of another yard speaks of vessels that this one has not.
void ask_about_others(const ImportOptions& options, const record::Store& store,
                      const std::vector<record::DueDay>& days) {
  std::set<std::string> known;
  for (const record::YardFacts::Design& one : facts_of(options).designs) known.insert(one.name);
  if (known.empty()) return;  // nothing is known of the yard
  for (const record::Vessel& one : record::all<record::Vessel>(store)) known.insert(one.name);
  record::Doubts unlikely;
  std::set<std::string> told;
  for (const record::DueDay& day : days) {
    if (day.vessel.empty() || known.contains(day.vessel) || !told.insert(day.vessel).second) continue;
    unlikely.push_back({options.file, "plans work at \"" + day.vessel + "\", which is not in this yard",
                        "name the plan.json of this site"});
  }
  ask_back(options, std::move(unlikely));
}

/// Days still to come that an earlier plan set and this one does not: counted, and taken back when asked.
std::size_t take_back_others(const ImportOptions& options, record::Store& store,
                             const std::vector<record::DueDay>& days) {
  std::set<std::string> planned;
  for (const record::DueDay& day : days) planned.insert(day.mark.id);
  const std::string today = date::to_iso(record::local_day(record::now(), zone_of(options)));
  std::size_t others = 0;
  for (record::DueDay& day : record::all<record::DueDay>(store)) {
    const bool over = (day.latest_date.empty() ? day.date : day.latest_date) < today;
    if (over || planned.contains(day.mark.thing) || !record::is_of_plan(day)) continue;
    ++others;
    if (!options.replace) continue;
    const std::string corrects = day.mark.id;
    day.mark = mark_of(options);
    day.mark.corrects = corrects;
    day.mark.reason = "another plan took its place";
    day.mark.withdrawn = true;
    (void)record::add(store, day);
  }
  return others;
}

void import_plan(const ImportOptions& options) {
  record::Store store = open_to_note(options, true);
  std::string text;
  for (const std::string& line : lines_of(options.file)) text += line + '\n';
  std::size_t stored = 0;
  record::Transaction together(store);
  const auto days = record::due_days_of_plan(text, mark_of(options));
  ask_about_others(options, store, days);
  for (const record::DueDay& day : days) {
    // Whoever took the plan in first, and whatever became of its days since, stays.
    if (!record::history<record::DueDay>(store, day.mark.id).empty()) continue;
    (void)record::add(store, day);
    ++stored;
  }
  const std::size_t others = take_back_others(options, store, days);
  together.commit();
  if (options.json) {
    const json told = {
        {"days", days.size()}, {"stored", stored}, {"of_other_plans", others}, {"replaced", options.replace}};
    std::printf("%s\n", told.dump().c_str());
    return;
  }
  std::printf("%s in the plan, %zu of them new\n", counted(days.size(), "day", "days").c_str(), stored);
  if (others == 0) return;
  std::printf("%s of earlier plans %s\n", counted(others, "day", "days").c_str(),
              options.replace ? "taken back" : "stand beside them; --replace takes them back");
}

void add_mapping_options(CLI::App& command, ImportOptions& options) {
  record::CsvMapping& mapping = options.mapping;
  command.add_option("--source", options.source, "Name of the logger; how its files are read is kept under it");
  command.add_option("--probe", options.probes,
                     "A column of readings, \"T1=temperature,degF,place:core,depth:18 in\"; once for each");
  command.add_option("--time", mapping.time, "Column of the time, or of the time of day");
  command.add_option("--date", mapping.date, "Column of the date, when it stands apart");
  command.add_option("--pattern", mapping.pattern, "How times are written, \"%d.%m.%Y %H:%M\"; else ISO 8601");
  command.add_option("--logger-zone", options.logger_zone, "Zone of the logger's clock; else that of --zone");
  command.add_option("--delimiter", mapping.delimiter, "Sign between cells; else found");
  command.add_flag("--decimal-comma", mapping.decimal_comma, "Numbers are written 54,5");
  command.add_option("--header-line", mapping.header_line, "Line of the column names, from 1");
  command.add_option("--probe-column", mapping.probe_column, "Column that names the probe, one reading a row");
}

}  // namespace

void add_import(CLI::App& app) {
  const auto options = std::make_shared<ImportOptions>();
  CLI::App* command = app.add_subcommand(
      "import", "Take in a logger's CSV file, the log sheet that was filled in by hand, or the days of a plan");
  add_who_options(*command, *options);
  command->add_option("FILE", options->file, "CSV file, or plan.json with --plan")->required();
  CLI::Option* const plan =
      command->add_flag("--plan", options->plan, "FILE is a plan.json: its calendar becomes due days");
  command->add_flag("--log", options->log, "FILE is the log.csv that the plan wrote, with the log sheet typed into it")
      ->excludes(plan);
  command
      ->add_flag("--replace", options->replace,
                 "With --plan: take back the days still to come of plans taken in before")
      ->needs(plan);
  add_fill_options(*command, options->fill);
  add_mapping_options(*command, *options);
  command->add_flag("--preview", options->preview, "Tell what would go in and what is refused; store nothing");
  command->add_flag("--sure", options->sure, "Store the unlikely too, which is held and listed without it");
  command->add_flag("--take-good", options->take_good, "Store the good cells though others are refused");
  command->footer(R"(Example:
  stillheap import yard log.csv --source probe7 --vessel "North 1" --by ab --time Time --logger-zone +01:00 \
    --probe "T1 (F)=temperature,degF,place:core,depth:18 in" --preview
Later files of the same logger need --source alone. In one transaction: all of it, or nothing.
  stillheap import yard log.csv --log --vessel "North 1" --by ab
The log sheet, as often as you like: what is in the records already is passed over, and so are empty rows.
)");
  command->callback([options] {
    if (options->plan) return import_plan(*options);
    options->log ? import_log_sheet(*options) : import_readings(*options);
  });
}

}  // namespace stillheap::app
