#pragma once
#include <CLI/CLI.hpp>

namespace stillheap::app {

void add_restore(CLI::App& app);

}  // namespace stillheap::app
