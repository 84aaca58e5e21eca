#pragma once
#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "planning/plan/plan.hpp"

/// What the commands that run a forecast have in common.
namespace stillheap::app {

struct RunOptions {
  std::string site;  ///< the file, or a folder with site.toml
  std::filesystem::path out;
  bool json = false;
  std::string grid;                  ///< empty: as the site file says
  int days = 0;                      ///< 0: as the site file says
  int members = 0;                   ///< 0: as the site file says
  std::vector<double> picture_days;  ///< empty: as the site file says
  std::filesystem::path animation;   ///< empty: none
  bool resume = false;
  bool force = false;  ///< write over what lies in the folder
};

/// Adds the options to a command.
void add_run_options(CLI::App& command, RunOptions& options);

/// What a run writes into its folder.
using WriteOutputs = void (*)(const plan::Plan& plan, const std::filesystem::path& folder);

/// Reads the site, plans and forecasts with progress shown, writes aside, puts all in place, and prints the
/// summary and `made` (one line on what lies in the folder) to stdout. Stopped by a signal, it writes the forecasts
/// as far as they came and a checkpoint, and throws CLI::RuntimeError with 128 plus the signal's number.
/// `command` is the command's name, for the hint on how to go on.
void run_and_write(const std::string& command, const RunOptions& options, WriteOutputs write, const std::string& made);

}  // namespace stillheap::app
