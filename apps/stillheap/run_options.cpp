#include "run_options.hpp"

#include <fmt/format.h>

#include <iostream>
#include <map>

#include "base/error.hpp"
#include "plan/plan_json.hpp"
#include "plan/staged_folder.hpp"
#include "plan/summary_text.hpp"
#include "progress_bar.hpp"
#include "site/site.hpp"
#include "site_path.hpp"

namespace stillheap::app {
namespace {

const std::map<std::string, forecast::Grid> grids = {
    {"draft", forecast::Grid::draft}, {"standard", forecast::Grid::standard}, {"fine", forecast::Grid::fine}};

/// Values of the command line stand above those of the site file; the reports then say where they come from.
void override_site(site::Site& site, const RunOptions& options) {
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
}

plan::Plan make_plan_with_progress(const site::Site& site) {
  ProgressBar bar;
  return plan::make_plan(site, [&bar](double share, const std::string& what) { return bar(share, what); });
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
}

void run_and_write(const RunOptions& options, WriteOutputs write, const std::string& made) {
  site::Site site = site::read_site(site_file(options.site));
  override_site(site, options);
  const StopOnCtrlC guard;
  plan::StagedFolder folder(options.out);
  const plan::Plan plan = make_plan_with_progress(site);
  write(plan, folder.path());
  if (stop_asked()) throw RunError("", "stopped on request", "nothing was written");
  folder.commit();
  print_summary(plan, options, made);
}

}  // namespace stillheap::app
