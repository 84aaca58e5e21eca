#include <algorithm>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "core/quantity/retold.hpp"
#include "record_options.hpp"
#include "yard/record/photo.hpp"
#include "yard/record/whole_check.hpp"
#include "yard/state/state.hpp"
#include "yard/state/state_json.hpp"
#include "yard_site.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;
using record::VesselGlance;

struct StatusOptions : RecordOptions {
  bool check = false;
};

/// What every line of a status needs.
struct View {
  yard::Reader reader;
  record::Instant at{};
  yard::Setting setting = nullptr;
};

double days_since(record::Instant then, record::Instant at) {
  return static_cast<double>((at - then).count()) / 86400.0;
}

std::string measure_words(record::Measure measure) {
  std::string words(record::info(measure).key);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

json glance_json(const record::Store& store, const VesselGlance& glance, const View& view) {
  json vessel = {{"vessel", glance.vessel.name}, {"id", glance.vessel.mark.thing}, {"fill", nullptr}};
  if (!glance.fill) return vessel;
  json readings = json::array();
  for (const record::Reading& one : glance.last) {
    readings.push_back({{"measure", record::info(one.measure).key},
                        {"value", one.value},
                        {"unit", record::info(one.measure).unit},
                        {"place", record::words(one.place, view.reader.units)},
                        {"at", record::to_utc_text(one.at)}});
  }
  json events = json::object();
  for (const auto& [kind, event] : glance.events)
    events[std::string(record::info(kind).key)] = record::to_utc_text(event.at);
  vessel["fill"] = {{"batch", glance.fill->batch},
                    {"id", glance.fill->mark.thing},
                    {"filled", record::to_utc_text(glance.fill->filled_at)},
                    {"days", days_since(glance.fill->filled_at, view.at)},
                    {"last_readings", readings},
                    {"last_events", events},
                    {"learned", yard::learned_words(store, glance, view.setting.site, view.reader.zone)},
                    {"insight", yard::to_json(yard::state_of(store, glance, view.setting, view.at), view.reader)}};
  return vessel;
}

/// A statement with its reading and its rule under it.
void print_statement(const char* head, const insight::Statement& one, const View& view, record::Instant filled_at) {
  const auto words = [&](const insight::Phrase& phrase) { return yard::words(phrase, view.reader, filled_at); };
  const auto told = [&](const std::string& text) { return quantity::retold(text, view.reader.units); };
  std::printf("  %s: %s\n", head, words(one.text).c_str());
  std::printf("    reading: %s\n    rule: %s (%s)\n", words(one.reading).c_str(), words(one.rule).c_str(),
              told(one.source).c_str());
  if (!one.next.empty()) std::printf("    next: %s\n", told(one.next).c_str());
  if (!one.caution.empty()) std::printf("    caution: %s\n", told(one.caution).c_str());
}

/// Before, no word on the harvest: at a glance it would only be noise. --json has it all.
bool old_enough(const yard::VesselState& state) {
  return std::none_of(state.harvest.points.begin(), state.harvest.points.end(), [](const insight::ReadyPoint& point) {
    return point.statement.id == "harvest-age" && point.answer == insight::Answer::no;
  });
}

void print_insight(const yard::VesselState& state, const View& view) {
  const record::Instant filled_at = state.glance.fill->filled_at;
  print_statement(std::string(insight::name_of(state.phase.now)).c_str(), state.phase.statement, view, filled_at);
  for (const insight::Statement& alert : state.alerts) {
    print_statement(std::string(insight::name_of(alert.weight)).c_str(), alert, view, filled_at);
  }
  if (const insight::RuleFinding* best = yard::best_rule(state)) {
    print_statement("hygiene", best->statement, view, filled_at);
  } else if (!state.hygiene.empty()) {
    print_statement("hygiene", state.hygiene.front().statement, view, filled_at);
  }
  const bool past_heat = state.phase.now != insight::Phase::starting && state.phase.now != insight::Phase::hot;
  if (past_heat && !state.worms_are_in) print_statement("worms", state.worms.statement, view, filled_at);
  if (old_enough(state)) print_statement("harvest", state.harvest.statement, view, filled_at);
  for (const insight::Statement& test : state.tests) print_statement("test", test, view, filled_at);
  if (state.salt) print_statement("salt", *state.salt, view, filled_at);
}

void print_glance(const record::Store& store, const VesselGlance& glance, const View& view) {
  if (!glance.fill) {
    std::printf("%s: empty\n", glance.vessel.name.c_str());
    return;
  }
  std::printf("%s: batch %s, day %.0f\n", glance.vessel.name.c_str(), glance.fill->batch.c_str(),
              std::max(0.0, days_since(glance.fill->filled_at, view.at)));
  print_insight(yard::state_of(store, glance, view.setting, view.at), view);
  if (const std::string learned = yard::learned_words(store, glance, view.setting.site, view.reader.zone);
      !learned.empty())
    std::printf("  %s\n", learned.c_str());
  for (const record::Reading& one : glance.last) {
    std::printf("  %s: %s %s, %s\n", record::words(one.place, view.reader.units).c_str(),
                measure_words(one.measure).c_str(),
                record::value_text(one.measure, one.value, view.reader.units).c_str(),
                record::to_local_text(one.at, view.reader.zone).substr(0, 16).c_str());
  }
  if (glance.last.empty()) std::printf("  no readings yet\n");
  for (const auto& [kind, event] : glance.events) {
    std::printf("  %s: %s\n", std::string(record::info(kind).words).c_str(),
                record::to_local_text(event.at, view.reader.zone).substr(0, 16).c_str());
  }
}

/// Looks all of it over; what it found is remembered for the next status and the page.
void refuse_damage(const record::Store& store) {
  const std::atomic<bool> stop{false};
  const record::WholeCheck found = record::check_whole(store.file(), stop);
  record::keep_check(store.file(), found);
  std::vector<std::string> damage = found.damage;
  const std::vector<std::string> photos = record::find_photo_damage(store);
  damage.insert(damage.end(), photos.begin(), photos.end());
  if (damage.empty()) return;
  std::vector<Problem> problems;
  problems.reserve(damage.size());
  for (const std::string& one : damage)
    problems.push_back({store.file().string(), one, "put the last backup in its place"});
  throw RunError(std::move(problems));
}

/// What the last look over the whole store found: by --check, or by serve in the background.
void print_check(const record::WholeCheck& checked, const record::Store& store, const std::string& zone) {
  std::printf("%s\n", record::words(checked, zone).c_str());
  if (checked.state != record::Soundness::damaged) return;
  for (const std::string& step : record::steps_to_restore(store.file())) std::printf("  %s\n", step.c_str());
}

void print_status(const StatusOptions& options) {
  const record::Store store = open_store(options, false);
  if (options.check) refuse_damage(store);
  const std::optional<site::Site> site = site_of(options);
  const View view{{units_of(site), zone_of(options)}, time_of(options), site ? &*site : nullptr};
  const std::vector<VesselGlance> vessels = record::yard(store, view.at);
  const record::WholeCheck checked = record::kept_check(store.file());
  if (options.json) {
    json list = json::array();
    for (const VesselGlance& glance : vessels) list.push_back(glance_json(store, glance, view));
    const json check = {{"state", record::key_of(checked.state)}, {"damage", checked.damage}};
    std::printf("%s\n", json{{"vessels", list}, {"store", check}}.dump(2).c_str());
    return;
  }
  for (const VesselGlance& glance : vessels) print_glance(store, glance, view);
  if (vessels.empty()) std::printf("no vessels noted yet; note one with: stillheap record vessel\n");
  if (options.check) std::printf("store and photos are whole\n");
  print_check(checked, store, view.reader.zone);
}

}  // namespace

void add_status(CLI::App& app) {
  const auto options = std::make_shared<StatusOptions>();
  CLI::App* command =
      app.add_subcommand("status", "Every vessel: phase, alerts, hygiene, readiness, last readings and events");
  add_site_options(*command, *options);
  command->add_option("--zone", options->zone, "Time zone of the times shown; else this machine's");
  command->add_option("--at", options->at, "Judge the readings as if it were then, 2026-05-03T08:00; else now");
  command->add_flag("--check", options->check, "Look the whole store and all photos over first");
  command->callback([options] { print_status(*options); });
}

}  // namespace stillheap::app
