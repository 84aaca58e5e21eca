#include <memory>

#include "commands.hpp"
#include "planning/plan/forecast_files.hpp"
#include "present/sheet/pack.hpp"
#include "run_options.hpp"

namespace stillheap::app {
namespace {

void write_forecast(const plan::Plan& plan, const std::filesystem::path& folder) {
  plan::write_forecast_files(plan, folder);
  sheet::write_plots(plan, folder / "plots");
}

}  // namespace

void add_forecast(CLI::App& app) {
  const auto options = std::make_shared<RunOptions>();
  CLI::App* command = app.add_subcommand(
      "forecast", "Forecast heat, air and water of every vessel, and write forecast.json, histories, fields and plots");
  add_run_options(*command, *options);
  command->callback([options] {
    run_and_write("forecast", *options, write_forecast, "forecast.json; forecast/ with history and fields; plots/.");
  });
}

}  // namespace stillheap::app
