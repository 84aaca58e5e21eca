#include <algorithm>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/error.hpp"
#include "commands.hpp"
#include "due_of_yard.hpp"
#include "record/photo.hpp"
#include "record_options.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;
using record::VesselGlance;

struct StatusOptions : RecordOptions {
  bool check = false;
};

double days_since(record::Instant then, record::Instant at) {
  return static_cast<double>((at - then).count()) / 86400.0;
}

std::string measure_words(record::Measure measure) {
  std::string words(record::info(measure).key);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

json glance_json(const VesselGlance& glance, record::Instant at) {
  json vessel = {{"vessel", glance.vessel.name}, {"id", glance.vessel.mark.thing}, {"fill", nullptr}};
  if (!glance.fill) return vessel;
  json readings = json::array();
  for (const record::Reading& one : glance.last) {
    readings.push_back({{"measure", record::info(one.measure).key},
                        {"value", one.value},
                        {"unit", record::info(one.measure).unit},
                        {"place", record::words(one.place, UnitSystem::metric)},
                        {"at", record::to_utc_text(one.at)}});
  }
  json events = json::object();
  for (const auto& [kind, event] : glance.events)
    events[std::string(record::info(kind).key)] = record::to_utc_text(event.at);
  vessel["fill"] = {{"batch", glance.fill->batch},
                    {"id", glance.fill->mark.thing},
                    {"filled", record::to_utc_text(glance.fill->filled_at)},
                    {"days", days_since(glance.fill->filled_at, at)},
                    {"last_readings", readings},
                    {"last_events", events}};
  return vessel;
}

/// Phase, hygiene and alerts join here: they are functions of these readings (record::readings_between) alone.
void print_glance(const VesselGlance& glance, UnitSystem units, record::Instant at, const std::string& zone) {
  if (!glance.fill) {
    std::printf("%s: empty\n", glance.vessel.name.c_str());
    return;
  }
  std::printf("%s: batch %s, day %.0f\n", glance.vessel.name.c_str(), glance.fill->batch.c_str(),
              std::max(0.0, days_since(glance.fill->filled_at, at)));
  for (const record::Reading& one : glance.last) {
    std::printf("  %s: %s %s, %s\n", record::words(one.place, units).c_str(), measure_words(one.measure).c_str(),
                record::value_text(one.measure, one.value, units).c_str(),
                record::to_local_text(one.at, zone).substr(0, 16).c_str());
  }
  if (glance.last.empty()) std::printf("  no readings yet\n");
  for (const auto& [kind, event] : glance.events) {
    std::printf("  %s: %s\n", std::string(record::info(kind).words).c_str(),
                record::to_local_text(event.at, zone).substr(0, 16).c_str());
  }
}

void refuse_damage(const record::Store& store) {
  std::vector<std::string> damage = record::find_damage(store);
  const std::vector<std::string> photos = record::find_photo_damage(store);
  damage.insert(damage.end(), photos.begin(), photos.end());
  if (damage.empty()) return;
  std::vector<Problem> problems;
  for (const std::string& one : damage)
    problems.push_back({store.file().string(), one, "put the last backup in its place"});
  throw RunError(std::move(problems));
}

void print_status(const StatusOptions& options) {
  const record::Store store = open_store(options, false);
  if (options.check) refuse_damage(store);
  const record::Instant at = record::now();
  const std::vector<VesselGlance> yard = record::yard(store);
  if (options.json) {
    json list = json::array();
    for (const VesselGlance& glance : yard) list.push_back(glance_json(glance, at));
    std::printf("%s\n", json{{"vessels", list}}.dump(2).c_str());
    return;
  }
  const UnitSystem units = units_of(options);
  for (const VesselGlance& glance : yard) print_glance(glance, units, at, zone_of(options));
  if (yard.empty()) std::printf("no vessels noted yet; note one with: stillheap record vessel\n");
  if (options.check) std::printf("store and photos are whole\n");
}

void print_today(const RecordOptions& options) {
  const record::Store store = open_store(options, false);
  const record::Instant at = time_of(options);
  const std::vector<record::Due> list = due_of_yard(store, at, zone_of(options));
  if (options.json) {
    json due = json::array();
    for (const record::Due& one : list) {
      due.push_back({{"vessel", one.vessel},
                     {"fill", one.fill_id},
                     {"what", one.what},
                     {"why", one.why},
                     {"since", record::to_utc_text(one.since)},
                     {"entry", one.entry_id}});
    }
    std::printf("%s\n", json{{"due", due}}.dump(2).c_str());
    return;
  }
  for (const record::Due& one : list) {
    std::printf("%s%s%s (%s)\n", one.vessel.c_str(), one.vessel.empty() ? "" : ": ", one.what.c_str(), one.why.c_str());
  }
  if (list.empty()) std::printf("nothing is due\n");
  for (const Assumption& one : record::assumptions_of({})) {
    std::printf("  %s = %s (%s)\n", one.topic.c_str(), one.value.c_str(), one.source.c_str());
  }
}

}  // namespace

void add_status(CLI::App& app) {
  const auto options = std::make_shared<StatusOptions>();
  CLI::App* command = app.add_subcommand("status", "Every vessel: what is in it, its last readings and events");
  add_site_options(*command, *options);
  command->add_option("--zone", options->zone, "Time zone of the times shown; else this machine's");
  command->add_flag("--check", options->check, "Look the whole store and all photos over first");
  command->callback([options] { print_status(*options); });
}

void add_today(CLI::App& app) {
  const auto options = std::make_shared<RecordOptions>();
  CLI::App* command = app.add_subcommand("today", "What is due, and why");
  add_site_options(*command, *options);
  command->add_option("--zone", options->zone, "Time zone the days are counted in; else this machine's");
  command->add_option("--at", options->at, "As if it were then, 2026-05-03T08:00; else now");
  command->callback([options] { print_today(*options); });
}

}  // namespace stillheap::app
