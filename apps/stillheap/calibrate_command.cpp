#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "core/base/date.hpp"
#include "core/base/error.hpp"
#include "core/quantity/retold.hpp"
#include "domain/limits/limits.hpp"
#include "model/calibrate/learn.hpp"
#include "planning/plan/fill_request.hpp"
#include "planning/site/site.hpp"
#include "progress_bar.hpp"
#include "record_options.hpp"
#include "site_path.hpp"
#include "yard/learned/learned.hpp"
#include "yard/state/state.hpp"

namespace stillheap::app {
namespace {

using nlohmann::json;

struct CalibrateOptions : RecordOptions {
  FillChoice fill;
  int members = calibrate::LearnOptions{}.members;
  int days = 365;
};

const record::Vessel& vessel_of(const std::vector<record::Vessel>& all, const record::Fill& fill) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const record::Vessel& one) { return one.mark.thing == fill.vessel_id; });
  if (found != all.end()) return *found;
  throw InputError("--fill", "is in a vessel that was withdrawn", "note the vessel again");
}

std::string date_of(const record::Fill& fill, double day, const CalibrateOptions& options) {
  const auto at = fill.filled_at + std::chrono::seconds{std::llround(day * 86400.0)};
  return date::to_iso(record::local_day(at, zone_of(options)));
}

json outlook_json(const calibrate::Outlook& outlook) {
  const std::optional<forecast::Banded>& cool = outlook.cool_day;
  return {{"misfit_k", outlook.misfit_k},
          {"cool_day", cool ? json{cool->low, cool->middle, cool->high} : json(nullptr)},
          {"heated", outlook.heated},
          {"cool_share_of_members", outlook.cool_share_of_members},
          {"never_warm_share", outlook.never_warm_share}};
}

/// How far off in the reader's unit: "1.8 K", "3.2 degF".
std::string step_text(double kelvin, UnitSystem units) {
  return quantity::format(kelvin, Dimension::temperature_step, units);
}

std::string end_text(const calibrate::Outlook& outlook, const record::Fill& fill, const CalibrateOptions& options) {
  if (!outlook.heated) return "never heats by itself";
  if (!outlook.cool_day) return "does not stop heating within the " + std::to_string(options.days) + " days worked out";
  const auto day = [&](double at) { return date_of(fill, at, options); };
  return "stops heating on " + day(outlook.cool_day->middle) + " (" + day(outlook.cool_day->low) + " to " +
         day(outlook.cool_day->high) + ")";
}

void print_outlook(const char* when, const calibrate::Outlook& outlook, const record::Fill& fill,
                   const CalibrateOptions& options, UnitSystem units) {
  std::printf(
      "%s: misses the readings by %s; the heap %s; in %d days %.0f %% of the runs stop heating, %.0f %% never heated\n",
      when, step_text(outlook.misfit_k, units).c_str(), end_text(outlook, fill, options).c_str(), options.days,
      100.0 * outlook.cool_share_of_members, 100.0 * outlook.never_warm_share);
}

void print_json(const calibrate::Learned& learned, const record::Fill& fill) {
  json values = json::array();
  for (const calibrate::LearnedValue& one : learned.values) {
    values.push_back({{"name", one.name}, {"what", one.what}, {"mean", one.mean}, {"deviation", one.deviation}});
  }
  const json all = {{"batch", fill.batch},
                    {"fill", fill.mark.thing},
                    {"readings", learned.readings},
                    {"observations", learned.observations},
                    {"left_out", learned.left_out},
                    {"follows", learned.follows},
                    {"used", !learned.own.draws.empty()},
                    {"misfit_of_forecast_k", learned.own.misfit_k},
                    {"runs_in_effect", learned.effective},
                    {"before", outlook_json(learned.before)},
                    {"after", outlook_json(learned.after)},
                    {"values", values}};
  std::printf("%s\n", all.dump(2).c_str());
}

void print_moved(const calibrate::Learned& learned, UnitSystem units) {
  std::vector<calibrate::LearnedValue> values = learned.values;
  std::stable_sort(values.begin(), values.end(),
                   [](const auto& a, const auto& b) { return std::abs(a.mean) > std::abs(b.mean); });
  values.resize(std::min<std::size_t>(values.size(), 6));
  std::printf("moved most, in standard deviations of what was assumed:\n");
  for (const calibrate::LearnedValue& one : values) {
    std::printf("  %s: %+.1f, now uncertain by %.1f\n", quantity::retold(one.name, units).c_str(), one.mean,
                one.deviation);
  }
}

void print_learned(const calibrate::Learned& learned, const record::Fill& fill, const CalibrateOptions& options,
                   UnitSystem units, const std::string& folder) {
  if (options.json) return print_json(learned, fill);
  std::printf("batch %s, %d days read\n", fill.batch.c_str(), learned.readings);
  if (learned.left_out > 0) {
    std::printf("left out, as no run of the forecast comes near: %d of the days on which moisture or oxygen was read\n",
                learned.left_out);
  }
  if (!learned.follows) {
    std::printf(
        "The forecast cannot follow these readings; forecast and water stay as they were. Check the probe, the fill's "
        "day, blend and design.\nThe nearest runs miss the readings by %s.\n",
        step_text(learned.after.misfit_k, units).c_str());
    return;
  }
  print_outlook("before", learned.before, fill, options, units);
  print_outlook("after ", learned.after, fill, options, units);
  print_moved(learned, units);
  if (learned.own.draws.empty()) {
    std::printf("A forecast that starts from it misses the readings by %s: forecast and water stay as they were.\n",
                step_text(learned.own.misfit_k, units).c_str());
  } else {
    std::printf(
        "Kept beside the records, in the folder %s: from now on this fill's forecast on the page and its water "
        "follow the readings. The middle line of that forecast misses them by %s. Delete the folder to forget.\n",
        folder.c_str(), step_text(learned.own.misfit_k, units).c_str());
  }
  std::printf(
      "Tested on heaps that were computed and on one in the open, where it mostly could not follow: see "
      "docs/calibration.md\n");
}

/// Refused before minutes of work: the future, and a folder that cannot be written.
void check_first(const record::Store& store, const record::Fill& fill, const CalibrateOptions& options) {
  if (time_of(options) > record::now())
    throw InputError("--at", "= " + options.at + " lies ahead", "leave it out to learn from all readings");
  yard::check_can_keep(store.file(), fill);
}

void print_calibration(const CalibrateOptions& options) {
  const record::Store store = open_store(options, false);
  const record::Fill fill = find_fill(store, options.fill);
  check_first(store, fill, options);
  const std::vector<calibrate::Observation> readings = yard::readings_to_learn(store, fill, time_of(options));
  calibrate::LearnOptions learning;
  learning.members = options.members;
  learning.last_day = options.days;
  if (const auto why = calibrate::too_little(readings, learning)) {
    throw InputError("calibrate", *why, "go on reading the core daily; until then the forecast stands as it is");
  }
  const site::Site site = site::read_site(site_file(options.site));
  const auto vessels = record::all<record::Vessel>(store);
  const vessel::Design* design = yard::design_of(vessel_of(vessels, fill), &site);
  if (design == nullptr) {
    throw InputError("calibrate", "the vessel's design is not in the site file",
                     "name it with: record vessel --design");
  }
  const StopOnSignal signals;
  ProgressBar bar;
  const plan::Filling filling = yard::filling_of(fill, zone_of(options));
  const calibrate::Learned learned =
      calibrate::teach(plan::fill_request(site, *design, filling, options.days), readings, learning,
                       [&bar](double share) { return bar(share, "running the forecast as it may turn out"); });
  const auto page_request = plan::fill_request(site, *design, filling, yard::learned_days);
  yard::keep_learned(store.file(), fill, calibrate::basis_of(page_request, readings), learned, time_of(options));
  print_learned(learned, fill, options, site.units,
                yard::learned_file(store.file(), fill.mark.thing).parent_path().filename().string());
}

}  // namespace

void add_calibrate(CLI::App& app) {
  const auto options = std::make_shared<CalibrateOptions>();
  CLI::App* command =
      app.add_subcommand("calibrate", "Let a fill's forecast learn from its readings; shows before and after");
  add_site_options(*command, *options);
  add_fill_options(*command, options->fill);
  command->add_option("--zone", options->zone, "Time zone the days are counted in; else this machine's");
  command->add_option("--at", options->at, "Learn from readings up to then, 2026-05-03T08:00; else all");
  command->add_option("--members", options->members, "Runs to learn from")->check(CLI::Range(64, 2000));
  command->add_option("--days", options->days, "Days to forecast")
      ->check(CLI::Range(30, static_cast<int>(limits::most(limits::forecast_days))));
  command->callback([options] { print_calibration(*options); });
}

}  // namespace stillheap::app
