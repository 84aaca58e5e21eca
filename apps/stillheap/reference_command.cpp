#include <cstdio>

#include "commands.hpp"
#include "site/site.hpp"

namespace stillheap::app {

void add_reference(CLI::App& app) {
  CLI::App* command = app.add_subcommand("reference", "Print every key of a site file as Markdown");
  command->callback([] { std::fputs(site::reference_markdown().c_str(), stdout); });
}

}  // namespace stillheap::app
