#pragma once
#include <CLI/CLI.hpp>

/// One function a command: it adds the command with its options, and what it does when it is chosen. A new command
/// is a file of its own, its line here and its line in main.cpp.
/// What a command throws ends the program: stillheap::InputError with code 2, everything else with code 1.
namespace stillheap::app {

void add_init(CLI::App& app);
void add_check(CLI::App& app);
void add_plan(CLI::App& app);
void add_sheets(CLI::App& app);
void add_forecast(CLI::App& app);
void add_sweep(CLI::App& app);
void add_record(CLI::App& app);
void add_import(CLI::App& app);
void add_export(CLI::App& app);
void add_status(CLI::App& app);
void add_today(CLI::App& app);
void add_calibrate(CLI::App& app);
void add_serve(CLI::App& app);
void add_reference(CLI::App& app);

}  // namespace stillheap::app
