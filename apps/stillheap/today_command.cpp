#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "record_options.hpp"
#include "yard/record/due.hpp"
#include "yard/state/state_json.hpp"
#include "yard/state/today.hpp"
#include "yard_site.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;

void print_task(const yard::Task& task) {
  const bool pressing = task.weight >= insight::Severity::warning;
  std::printf("%s%s%s%s (%s)\n", pressing ? (std::string(insight::name_of(task.weight)) + ": ").c_str() : "",
              task.vessel.c_str(), task.vessel.empty() ? "" : ": ", task.what.c_str(), task.why.c_str());
  std::printf("  rule: %s (%s)\n", task.rule.c_str(), task.source.c_str());
  if (!task.caution.empty()) std::printf("  caution: %s\n", task.caution.c_str());
}

/// What the plan sets for the days to come, a line each.
void print_ahead(const std::vector<yard::Task>& tasks) {
  bool any = false;
  for (const yard::Task& task : tasks) {
    if (!task.ahead) continue;
    if (!any) std::printf("still ahead:\n");
    any = true;
    std::printf("  %s%s%s (%s)\n", task.vessel.c_str(), task.vessel.empty() ? "" : ": ", task.what.c_str(),
                task.why.c_str());
  }
}

/// Where the water of a fill follows its readings, and where it no longer does.
void print_learned(const record::Store& store, const site::Site& site, const std::string& zone, record::Instant at) {
  for (const record::VesselGlance& glance : record::yard(store, at)) {
    if (const std::string learned = yard::learned_words(store, glance, &site, zone); !learned.empty())
      std::printf("  %s: %s\n", glance.vessel.name.c_str(), learned.c_str());
  }
}

void print_today(const RecordOptions& options) {
  const record::Store store = open_store(options, false);
  const std::optional<site::Site> site = site_of(options);
  const record::Rhythm rhythm = rhythm_of(site, store, zone_of(options));
  const std::vector<yard::Task> tasks =
      yard::today(store, site ? &*site : nullptr, time_of(options), {units_of(site), zone_of(options)}, rhythm);
  if (options.json) {
    json due = json::array();
    for (const yard::Task& task : tasks) due.push_back(yard::to_json(task));
    std::printf("%s\n", json{{"due", due}}.dump(2).c_str());
    return;
  }
  for (const yard::Task& task : tasks) {
    if (!task.ahead) print_task(task);
  }
  print_ahead(tasks);
  if (tasks.empty()) std::printf("nothing is due\n");
  if (site) print_learned(store, *site, zone_of(options), time_of(options));
  for (const Assumption& one : record::assumptions_of(rhythm)) {
    std::printf("  %s = %s (%s)\n", one.topic.c_str(), one.value.c_str(), one.source.c_str());
  }
}

}  // namespace

void add_today(CLI::App& app) {
  const auto options = std::make_shared<RecordOptions>();
  CLI::App* command = app.add_subcommand("today", "What is due by the records, the plan and the readings, and why");
  add_site_options(*command, *options);
  command->add_option("--zone", options->zone, "Time zone the days are counted in; else this machine's");
  command->add_option("--at", options->at, "As if it were then, 2026-05-03T08:00; else now");
  command->callback([options] { print_today(*options); });
}

}  // namespace stillheap::app
