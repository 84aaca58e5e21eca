#include "command_tree.hpp"

#include <sstream>

namespace stillheap::app {
namespace {

std::vector<std::string> cut(const std::string& text, char at) {
  std::vector<std::string> parts;
  std::istringstream rest(text);
  for (std::string part; std::getline(rest, part, at);) parts.push_back(part);
  return parts;
}

/// CLI11 shows the allowed words as "GRID:{draft,standard,fine}"; the set has no order of its own.
std::vector<std::string> choices_of(const std::string& type) {
  const std::size_t begin = type.find('{');
  const std::size_t end = type.find('}');
  if (begin == std::string::npos || end == std::string::npos) return {};
  return cut(type.substr(begin + 1, end - begin - 1), ',');
}

OptionLine line_of(const CLI::Option& option) {
  OptionLine line;
  line.positional = option.get_positional();
  line.names = cut(option.get_name(line.positional, !line.positional), ',');
  line.help = option.get_description();
  if (option.get_items_expected_max() > 0 && !line.positional) {
    const std::string type = option.get_type_name();
    line.choices = choices_of(type);
    line.value = type.substr(0, type.find(':'));
  }
  return line;
}

void add_commands(const CLI::App& app, const std::vector<std::string>& words, std::vector<CommandLine>& tree) {
  // Each command takes over the footer of the one above unless it has its own.
  const bool own = app.get_parent() == nullptr || app.get_parent()->get_footer() != app.get_footer();
  CommandLine line{words, app.get_description(), own ? app.get_footer() : "", {}, {}};
  for (const CLI::Option* option : app.get_options()) line.options.push_back(line_of(*option));
  const auto below = app.get_subcommands([](const CLI::App*) { return true; });
  for (const CLI::App* command : below) line.below.push_back(command->get_name());
  tree.push_back(std::move(line));
  for (const CLI::App* command : below) {
    std::vector<std::string> deeper = words;
    deeper.push_back(command->get_name());
    add_commands(*command, deeper, tree);
  }
}

}  // namespace

std::vector<CommandLine> command_tree(const CLI::App& app) {
  std::vector<CommandLine> tree;
  add_commands(app, {}, tree);
  return tree;
}

}  // namespace stillheap::app
