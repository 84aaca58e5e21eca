#include <cstdio>
#include <memory>

#include "command_tree.hpp"
#include "commands.hpp"
#include "planning/site/site.hpp"

namespace stillheap::app {

void add_reference(CLI::App& app) {
  struct Options {
    bool man = false, completion = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("reference", "Print every key of a site file as Markdown");
  CLI::Option* man = command->add_flag("--man", options->man, "Print the manual page instead, as mdoc");
  command->add_flag("--completion", options->completion, "Print the completion for bash instead")->excludes(man);
  command->callback([options, &app] {
    const std::string text = options->man          ? manual_page(app)
                             : options->completion ? bash_completion(app)
                                                   : site::reference_markdown();
    std::fputs(text.c_str(), stdout);
  });
}

}  // namespace stillheap::app
