#include "run_options.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <iostream>
#include <map>

#include "core/base/delimited.hpp"
#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "domain/limits/limits.hpp"
#include "planning/plan/forecast_files.hpp"
#include "planning/plan/plan_json.hpp"
#include "planning/plan/resumable.hpp"
#include "planning/plan/staged_folder.hpp"
#include "planning/plan/summary_text.hpp"
#include "planning/site/site.hpp"
#include "present/film/animation.hpp"
#include "present/film/encoder.hpp"
#include "progress_bar.hpp"
#include "site_path.hpp"

namespace stillheap::app {
namespace {

const std::map<std::string, forecast::Grid> grids = {
    {"draft", forecast::Grid::draft}, {"standard", forecast::Grid::standard}, {"fine", forecast::Grid::fine}};

/// Values of the command line stand above those of the site file; the reports then say where they come from.
void override_site(site::Site& site, const RunOptions& options) {
  const auto& days = options.picture_days;
  if (std::adjacent_find(days.begin(), days.end(), std::greater_equal<>()) != days.end())
    throw InputError("--picture-days", "do not rise from each to the next", "write them as 1,7,30");
  const auto note = [&](const std::string& topic, const std::string& value) {
    std::erase_if(site.defaults, [&](const Assumption& one) { return one.topic == topic; });
    site.defaults.push_back({topic, value, "command line"});
  };
  if (!options.grid.empty()) {
    site.grid = grids.at(options.grid);
    note("forecast.grid", options.grid);
  }
  if (options.days > 0) {
    site.forecast_days = options.days;
    note("forecast.days", std::to_string(options.days));
  }
  if (options.members > 0) {
    site.members = options.members;
    note("forecast.members", std::to_string(options.members));
  }
  if (!options.picture_days.empty()) {
    site.picture_days = options.picture_days;
    note("forecast.picture_days", fmt::format("{}", fmt::join(options.picture_days, ", ")));
  }
  site.animated = !options.animation.empty();
}

/// Refuses what is no number within the limit; "nan" too.
CLI::Validator within(const limits::Limit& limit) {
  const auto judge = [&limit](std::string& text) -> std::string {
    const std::optional<double> value = number_of(text);
    return value && limits::holds(limit, *value) ? "" : "\"" + text + "\" is not " + limits::allowed(limit);
  };
  return {judge, "", std::string(limit.name)};
}

constexpr const char* checkpoint_name = "resume.cbor";
constexpr std::chrono::seconds checkpoint_every{60};  // chosen: writing one takes a small share of that
constexpr int signal_code = 128;                      // shells say 128 + n for a program ended by signal n

plan::Plan make_plan_with_progress(const site::Site& site, plan::Resumable& forecasts) {
  ProgressBar bar;
  return plan::make_plan(
      site, [&bar](double share, const std::string& what) { return bar(share, what); }, forecasts.engine());
}

/// The command line that goes on: as it was, with --resume.
std::string resume_line(const std::string& command, const RunOptions& options) {
  std::string line = fmt::format("stillheap {} '{}' -o '{}'", command, options.site, options.out.string());
  if (!options.grid.empty()) line += " --grid " + options.grid;
  if (options.days > 0) line += fmt::format(" --days {}", options.days);
  if (options.members > 0) line += fmt::format(" --members {}", options.members);
  if (!options.picture_days.empty()) line += fmt::format(" --picture-days {}", fmt::join(options.picture_days, ","));
  if (!options.animation.empty()) line += fmt::format(" --animation '{}'", options.animation.string());
  if (options.json) line += " --json";
  return line + " --resume";
}

/// Half a forecast is worth reading, half a plan is not: of a plan the forecasts alone are written.
[[noreturn]] void leave_stopped(const plan::Plan& plan, const std::string& command, const RunOptions& options,
                                plan::StagedFolder& folder) {
  plan::write_forecast_files(plan, folder.path());
  folder.commit();
  fmt::print(stderr,
             "{}\nWritten to {}: forecast.json and forecast/ as far as they came, and a checkpoint.\n"
             "To go on: {}\n",
             *plan.stopped, options.out.string(), resume_line(command, options));
  throw CLI::RuntimeError(signal_code + stop_signal());
}

/// Name of the yard that a folder's records are of, empty where they tell none (a forecast alone); nothing when none of
/// ours lie there.
std::optional<std::string> yard_in(const std::filesystem::path& folder) {
  for (const char* name : {"plan.json", "forecast.json"}) {
    if (!std::filesystem::is_regular_file(folder / name)) continue;
    const auto json = plan::Json::parse(read_whole_file(folder / name), nullptr, false);
    if (!json.is_object() || !json.contains("schema") || !json["schema"].is_string()) continue;
    if (!json["schema"].get<std::string>().starts_with("stillheap ")) continue;
    const auto site = json.find("site");
    const bool named = site != json.end() && site->is_object() && site->contains("name") && (*site)["name"].is_string();
    return named ? (*site)["name"].get<std::string>() : std::string{};
  }
  return std::nullopt;
}

/// What lies in the folder is not lost by a slip: only files of the same yard are replaced, and it is said.
void check_folder(const site::Site& site, const RunOptions& options) {
  if (options.force || options.resume || !std::filesystem::is_directory(options.out)) return;
  const std::optional<std::string> yard = yard_in(options.out);
  if (yard && (yard->empty() || *yard == site.name)) {
    fmt::print(stderr, "{}: files of an earlier run for this yard are replaced\n", options.out.string());
    return;
  }
  const char* const mend = "name another folder, or write over them with --force";
  if (yard) {
    throw InputError("-o", "= " + options.out.string() + " holds the plan of another yard, \"" + *yard + '"', mend);
  }
  for (const char* name : {"plan.json", "forecast.json", "pack.pdf", "plots", "template", "forecast"}) {
    if (std::filesystem::exists(options.out / name))
      throw InputError("-o", "= " + options.out.string() + " holds \"" + name + "\", which would be written over",
                       mend);
  }
}

void print_summary(const plan::Plan& plan, const RunOptions& options, const std::string& made) {
  if (options.json) {
    plan::Json json = plan::summary_json(plan);
    json["folder"] = options.out.string();
    std::cout << plan::to_text(json);
    return;
  }
  std::cout << plan::summary_text(plan) << "Written to " << options.out.string() << ": " << made << '\n';
}

}  // namespace

void add_run_options(CLI::App& command, RunOptions& options) {
  command.add_option("SITE", options.site, "Site file, or a folder with site.toml; init writes one to start from")
      ->required();
  command.add_option("-o,--output", options.out, "Folder to write into; it is made if it does not exist")
      ->required()
      ->type_name("DIR");
  command.add_flag("--json", options.json, "Print the summary as JSON instead of sentences");
  command
      .add_option("--grid", options.grid,
                  "How finely the heap is cut: draft (daily weather, quick), standard, fine; else as in the site file")
      ->check(CLI::IsMember({"draft", "standard", "fine"}))
      ->type_name("GRID");
  command
      .add_option(
          "--days", options.days,
          "How many days to look ahead, " + limits::allowed(limits::forecast_days) + "; else as in the site file")
      ->check(within(limits::forecast_days))
      ->type_name("N");
  command
      .add_option("--members", options.members,
                  "Runs that make the band, " + limits::allowed(limits::members) + "; else as in the site file")
      ->check(within(limits::members))
      ->type_name("N");
  command
      .add_option("--picture-days", options.picture_days,
                  "Days since filling of the pictures and 3-D fields, such as 1,7,30; else as in the site file")
      ->delimiter(',')
      ->check(within(limits::picture_day))
      ->type_name("DAYS");
  command
      .add_option("--animation", options.animation,
                  "Also write the inside as a film, .mp4 or .gif by the file's ending; needs ffmpeg")
      ->type_name("FILE");
  command.add_flag("--force", options.force,
                   "Write over what lies in the folder though it is another yard's, or not ours; without it only files "
                   "of the same yard are replaced");
  command.add_flag("--resume", options.resume,
                   "Go on with a run that was stopped (Ctrl-C, SIGTERM, a crash), from its checkpoint in the folder; "
                   "the same site file and options give the same files as a run without a stop");
}

void run_and_write(const std::string& command, const RunOptions& options, WriteOutputs write, const std::string& made) {
  site::Site site = site::read_site(site_file(options.site));
  override_site(site, options);
  check_folder(site, options);
  if (site.animated) sheet::check_encoder(options.animation);
  const StopOnSignal guard;
  plan::Resumable forecasts(options.out / checkpoint_name, checkpoint_every);
  if (options.resume) forecasts.take_up();
  plan::StagedFolder folder(options.out);
  const plan::Plan plan = make_plan_with_progress(site, forecasts);
  if (plan.stopped) {
    forecasts.keep();
    leave_stopped(plan, command, options, folder);
  }
  write(plan, folder.path());
  folder.commit();
  forecasts.forget();
  print_summary(plan, options, made);
  if (!site.animated) return;
  for (const auto& film : sheet::write_animation(plan, options.animation))
    fmt::print(stderr, "Film: {}\n", film.string());
}

}  // namespace stillheap::app
