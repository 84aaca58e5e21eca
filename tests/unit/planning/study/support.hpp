#pragma once
#include <signal.h>
#include <unistd.h>

#include <chrono>
#include <functional>
#include <map>
#include <set>
#include <sstream>
#include <thread>

#include "../plan/yard.hpp"
#include "../site/support.hpp"
#include "core/base/error.hpp"
#include "planning/study/study.hpp"

/// Small studies of a small yard for the tests of studies.
namespace stillheap::study::test {

namespace fs = std::filesystem;
using site::test::app;
using site::test::Folder;
using site::test::read_text;
using site::test::start;

/// A folder with the example's site file, and a study of it written beside.
inline fs::path write_study(const Folder& folder, const std::string& text, const std::string& name = "study.toml") {
  const fs::path site = fs::path(STILLHEAP_SOURCE_DIR) / "examples/common-round-us/site.toml";
  fs::copy_file(site, folder.path() / "site.toml", fs::copy_options::overwrite_existing);
  return folder.write(name, "site = \"site.toml\"\n" + text);
}

/// Two keys, six drafts of a few days.
inline std::string six_drafts(int days = 20) {
  return "[vary.\"vessel.panel_length\"]\nlist = [\"12 ft 6 in\", \"15 ft\"]\n"
         "[vary.\"blend.soaked_moisture\"]\nfrom = \"60 %\"\nto = \"70 %\"\nsteps = 3\n"
         "[set]\n\"forecast.grid\" = \"draft\"\n\"forecast.members\" = 1\n\"forecast.days\" = " +
         std::to_string(days) + "\n";
}

inline std::vector<std::string> lines_of(const fs::path& file) {
  std::vector<std::string> lines;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

inline pid_t start_sweep(const fs::path& study, const fs::path& out, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{app(), "sweep", study.string(), "-o", out.string()};
  words.insert(words.end(), more.begin(), more.end());
  return start(words);
}

/// Exit code, or minus the number of the signal that ended it.
inline int wait_for(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

/// Waits until something holds, for half a minute at most: on a loaded machine all takes long.
inline bool wait_until(const std::function<bool()>& holds) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(30);
  while (!holds()) {
    if (std::chrono::steady_clock::now() > end) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  return true;
}

}  // namespace stillheap::study::test
