#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "core/base/whole_file.hpp"
#include "planning/site/site.hpp"

namespace stillheap::app {
namespace {

[[noreturn]] void refuse_to_replace(const std::filesystem::path& file) {
  throw InputError(file.string(), "is there already", "name another folder, or move the file away first");
}

void write_starter(const std::filesystem::path& folder, UnitSystem units) {
  const std::filesystem::path file = folder / "site.toml";
  if (std::filesystem::exists(file)) refuse_to_replace(file);
  std::error_code failure;
  const bool made = std::filesystem::create_directories(folder, failure);
  if (failure)
    throw RunError(folder.string(), "the folder cannot be made: " + failure.message(), "name another folder");
  try {
    if (!write_new_file(file, site::starter_text(units))) refuse_to_replace(file);
  } catch (const RunError&) {
    if (made) std::filesystem::remove(folder, failure);
    throw;
  }
  std::printf(
      "wrote %s\nnext: change it to your yard, then run  stillheap check %s\nthen: stillheap serve %s  shows it in a "
      "browser\n",
      file.c_str(), file.c_str(), folder.c_str());
}

}  // namespace

void add_init(CLI::App& app) {
  struct Options {
    std::string folder;
    bool us = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("init", "Write a commented site file to start from");
  command->add_option("DIR", options->folder, "Folder for site.toml; made when missing, never overwritten")->required();
  command->add_flag("--us", options->us, "US customary units instead of metric");
  command->callback([options] { write_starter(options->folder, options->us ? UnitSystem::us : UnitSystem::metric); });
}

}  // namespace stillheap::app
