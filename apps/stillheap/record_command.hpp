#pragma once
#include <CLI/CLI.hpp>

/// The kinds of entries that `stillheap record` takes, a group a file.
namespace stillheap::app {

void add_record_people_and_vessels(CLI::App& record);
void add_record_feedstock(CLI::App& record);
void add_record_reading(CLI::App& record);
void add_record_event(CLI::App& record);
void add_record_results(CLI::App& record);
void add_record_photo(CLI::App& record);
void add_record_history(CLI::App& record);

}  // namespace stillheap::app
