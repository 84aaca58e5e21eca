#include <memory>

#include "commands.hpp"
#include "planning/plan/forecast_files.hpp"
#include "planning/plan/records.hpp"
#include "planning/plan/staged_folder.hpp"
#include "present/sheet/pack.hpp"
#include "present/template/template_drawing.hpp"
#include "run_options.hpp"
#include "yard/record/log_sheet.hpp"

namespace stillheap::app {
namespace {

void write_plan(const plan::Plan& plan, const std::filesystem::path& folder) {
  plan::write_records(plan, folder);
  plan::write_forecast_files(plan, folder);
  sheet::write_plots(plan, folder / "plots");
  sheet::write_pack(plan, folder / "pack.pdf");
  sheet::write_appendix(plan, folder / "appendix.pdf");
  sheet::write_templates(plan, folder / "template");
  plan::write_text(folder / "log.csv", record::blank_log_csv(plan.site.units));
}

}  // namespace

void add_plan(CLI::App& app) {
  const auto options = std::make_shared<RunOptions>();
  CLI::App* command = app.add_subcommand(
      "plan", "Plan the yard, forecast it, and write a pack to print, plan.json, forecast.json and CSV files");
  add_run_options(*command, *options);
  command->callback([options] {
    run_and_write(
        "plan", *options, write_plan,
        "pack.pdf to print and take outside; appendix.pdf with costs and assumptions; plan.json and CSV "
        "files; forecast.json; forecast/ with history "
        "and fields; plots/; template/ with drilling templates at true scale; log.csv to type the log sheet into.");
  });
}

}  // namespace stillheap::app
