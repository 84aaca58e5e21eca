#include <fmt/format.h>
#include <fmt/ranges.h>

#include "command_tree.hpp"

namespace stillheap::app {
namespace {

constexpr const char* dated = "November 25, 2026";  // of the text; a build's own day would make each build another one

/// Text that mdoc takes as it stands.
std::string plain(const std::string& text) {
  std::string safe;
  for (const char c : text) safe += c == '\\' ? "\\e" : std::string(1, c);
  return safe.starts_with('.') || safe.starts_with('\'') ? "\\&" + safe : safe;
}

/// A sentence a line, as mdoc wants it.
std::string sentences(std::string text) {
  for (std::size_t at = 0; (at = text.find(". ", at)) != std::string::npos; ++at) text[at + 1] = '\n';
  std::string lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    if (end > at) lines += plain(text.substr(at, end - at)) + '\n';
    at = end + 1;
  }
  return lines;
}

std::string display(const std::string& text) {
  std::string lines = ".Bd -literal\n";
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines += plain(text.substr(at, end - at)) + '\n';
    at = end + 1;
  }
  return lines + ".Ed\n";
}

std::string head_of(const OptionLine& option) {
  if (option.positional) return ".It Ar " + option.names.front() + '\n';
  std::string head = ".It";
  for (const std::string& name : option.names) head += (head.size() > 3 ? " , Fl " : " Fl ") + name.substr(1);
  if (!option.value.empty()) head += " Ar " + option.value;
  return head + '\n';
}

std::string options_of(const CommandLine& command) {
  if (command.options.empty()) return {};
  std::string text = ".Bl -tag -width Ds\n";
  for (const OptionLine& option : command.options) {
    text += head_of(option) + sentences(option.help);
    if (!option.choices.empty()) text += plain(fmt::format("One of: {}.\n", fmt::join(option.choices, ", ")));
  }
  return text + ".El\n";
}

}  // namespace

std::string manual_page(const CLI::App& app) {
  const auto tree = command_tree(app);
  std::string text = fmt::format(
      ".\\\" Made by: stillheap reference --man\n.Dd {}\n.Dt STILLHEAP 1\n.Os\n.Sh NAME\n.Nm stillheap\n"
      ".Nd plan and forecast static, passively aerated compost\n.Sh SYNOPSIS\n.Nm\n.Ar command\n.Op Ar option ...\n"
      ".Sh DESCRIPTION\n{}Every amount carries its unit, metric or US customary.\n"
      "The keys of a site file are printed by\n.Nm\n.Cm reference .\n{}.Sh COMMANDS\n",
      dated, sentences(tree.front().help), options_of(tree.front()));
  for (const CommandLine& command : tree) {
    if (command.words.empty()) continue;
    text +=
        fmt::format(".Ss {}\n{}{}", fmt::join(command.words, " "), sentences(command.help + "."), options_of(command));
    if (!command.footer.empty()) text += display(command.footer);
  }
  return text +
         ".Sh ENVIRONMENT\n.Bl -tag -width Ds\n.It Ev STILLHEAP_BY\nInitials of who notes an entry, where\n.Fl -by\n"
         "is not given.\n.El\n.Sh FILES\n.Bl -tag -width Ds\n.It Pa site.toml\nThe site file.\n"
         ".It Pa site.records.sqlite\nThe records, beside it.\n.It Pa site.photos\nPhotos of the records, beside it.\n"
         ".El\n.Sh EXIT STATUS\n.Bl -tag -width Ds\n.It 0\nDone.\n.It 1\nA fault: what happened and how to mend it is "
         "told.\n.It 2\nThe input is wrong; nothing was written.\n.It 130 , 143\nStopped by Ctrl-C or SIGTERM; what "
         "was "
         "done is written.\n.El\n.Sh EXAMPLES\n" +
         display(tree.front().footer);
}

}  // namespace stillheap::app
