#include <fmt/format.h>
#include <fmt/ranges.h>

#include "command_tree.hpp"

namespace stillheap::app {
namespace {

std::string path_of(const CommandLine& command) {
  std::string path;
  for (const std::string& word : command.words) path += '/' + word;
  return path;
}

/// "  '/plan:--grid') words='draft fine standard' ;;" for each option that takes only some words.
std::string choice_cases(const std::vector<CommandLine>& tree) {
  std::string cases;
  for (const CommandLine& command : tree) {
    for (const OptionLine& option : command.options) {
      if (option.choices.empty()) continue;
      for (const std::string& name : option.names) {
        cases += fmt::format("    '{}:{}') words='{}' ;;\n", path_of(command), name, fmt::join(option.choices, " "));
      }
    }
  }
  return cases;
}

std::string word_cases(const std::vector<CommandLine>& tree) {
  std::string cases;
  for (const CommandLine& command : tree) {
    std::vector<std::string> names;
    for (const OptionLine& option : command.options) {
      if (!option.positional) names.insert(names.end(), option.names.begin(), option.names.end());
    }
    cases += fmt::format("    '{}') options='{}'; commands='{}' ;;\n", path_of(command), fmt::join(names, " "),
                         fmt::join(command.below, " "));
  }
  return cases;
}

}  // namespace

std::string bash_completion(const CLI::App& app) {
  const auto tree = command_tree(app);
  std::vector<std::string> paths;
  for (const CommandLine& command : tree) {
    if (!command.words.empty()) paths.push_back("'" + path_of(command) + "'");
  }
  return fmt::format(R"(# Completion for bash. Made by: stillheap reference --completion
_stillheap() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} path= words= options= commands= i
  for ((i = 1; i < COMP_CWORD; i++)); do
    case "$path/${{COMP_WORDS[i]}}" in
    {}) path=$path/${{COMP_WORDS[i]}} ;;
    esac
  done
  case "$path:$before" in
{}  esac
  case "$path" in
{}  esac
  if [ -z "$words" ]; then
    words=$commands
    [[ $word == -* ]] && words=$options
  fi
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}}
complete -o default -F _stillheap stillheap
)",
                     fmt::join(paths, " | "), choice_cases(tree), word_cases(tree));
}

}  // namespace stillheap::app
