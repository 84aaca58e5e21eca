#include "run_options.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <iostream>
#include <map>

#include "core/base/error.hpp"
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
  command.add_option("--days", options.days, "How many days to look ahead, 1 to 540; else as in the site file")
      ->check(CLI::Range(1, 540))
      ->type_name("N");
  command.add_option("--members", options.members, "Runs that make the band, 1 to 500; else as in the site file")
      ->check(CLI::Range(1, 500))
      ->type_name("N");
  command
      .add_option("--picture-days", options.picture_days,
                  "Days since filling of the pictures and 3-D fields, such as 1,7,30; else as in the site file")
      ->delimiter(',')
      ->check(CLI::Range(1e-3, 540.0))
      ->type_name("DAYS");
  command
      .add_option("--animation", options.animation,
                  "Also write the inside as a film, .mp4 or .gif by the file's ending; needs ffmpeg")
      ->type_name("FILE");
  command.add_flag("--resume", options.resume,
                   "Go on with a run that was stopped (Ctrl-C, SIGTERM, a crash), from its checkpoint in the folder; "
                   "the same site file and options give the same files as a run without a stop");
}

void run_and_write(const std::string& command, const RunOptions& options, WriteOutputs write, const std::string& made) {
  site::Site site = site::read_site(site_file(options.site));
  override_site(site, options);
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
