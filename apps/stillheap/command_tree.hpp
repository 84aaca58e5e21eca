#pragma once
#include <CLI/CLI.hpp>
#include <string>
#include <vector>

/// The commands and options as they are declared, flattened: what the manual page and the completion are made from, so
/// that neither can fall behind the program.
namespace stillheap::app {

struct OptionLine {
  std::vector<std::string> names;    ///< "-o", "--output"; one plain name for a positional
  bool positional = false;           ///< given by its place
  std::string value;                 ///< what follows, "DIR"; empty for a flag
  std::vector<std::string> choices;  ///< the only words allowed; empty: any
  std::string help;
};

struct CommandLine {
  std::vector<std::string> words;  ///< {"record", "reading"}; empty for the program itself
  std::string help;
  std::string footer;
  std::vector<std::string> below;  ///< names of its own commands
  std::vector<OptionLine> options;
};

/// The program first, then each command before the ones below it, in the order they were added.
[[nodiscard]] std::vector<CommandLine> command_tree(const CLI::App& app);

/// Manual page in mdoc, section 1.
[[nodiscard]] std::string manual_page(const CLI::App& app);

/// Completion for bash: commands, options, and words where only some are allowed.
[[nodiscard]] std::string bash_completion(const CLI::App& app);

}  // namespace stillheap::app
