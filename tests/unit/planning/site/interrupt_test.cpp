#include <gtest/gtest.h>
#include <signal.h>
#include <unistd.h>

#include <chrono>
#include <map>
#include <thread>

#include "support.hpp"

namespace stillheap::site {
namespace {

namespace fs = std::filesystem;

pid_t start(std::vector<std::string> words) {
  words.insert(words.begin(), test::app());
  return test::start(words);
}

int exit_code(int status) { return WIFEXITED(status) ? WEXITSTATUS(status) : -1; }

/// Runs the program and signals it some time after it has begun to work on its output folder, which the folder aside
/// shows: on a loaded machine getting there takes long. Returns its exit code.
int run_and_signal(const std::vector<std::string>& arguments, const fs::path& out, std::chrono::milliseconds after,
                   int signal_number) {
  const pid_t child = start(arguments);
  const std::string aside = "." + out.filename().string() + ".unfinished-" + std::to_string(child);
  int status = 0;
  while (!fs::exists(out.parent_path() / aside) && !fs::exists(out / aside)) {
    if (::waitpid(child, &status, WNOHANG) == child) return exit_code(status);
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  std::this_thread::sleep_for(after);
  ::kill(child, signal_number);
  ::waitpid(child, &status, 0);
  return exit_code(status);
}

std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    files[entry.path().lexically_relative(folder).string()] = test::read_text(entry.path());
  }
  return files;
}

/// Two vessels, a draft: long enough to be stopped on the way, short enough for a test.
std::string yard() {
  std::string text = test::read_text(fs::path(STILLHEAP_SOURCE_DIR) / "tests/data/site/good.toml");
  const std::string standard = "days = 365\ngrid = \"standard\"";
  text.replace(text.find(standard), standard.size(), "days = 40\ngrid = \"draft\"\nmembers = 3");
  return text;
}

class Interrupted : public testing::TestWithParam<const char*> {};

TEST_P(Interrupted, AndResumedProgramLeavesTheSameFiles) {
  const test::Folder folder;
  const std::string site = folder.write("site.toml", yard()).string();
  const fs::path whole = folder.path() / "whole", broken = folder.path() / "deep" / "broken";
  const std::string command = GetParam();
  ASSERT_EQ(test::run_app(command + " '" + site + "' -o '" + whole.string() + "'").code, 0);

  // SIGINT and SIGTERM in turn, each a little later than the one before, until nothing is left to stop.
  std::vector<std::string> arguments{command, site, "-o", broken.string()};
  int stops = 0;
  for (std::chrono::milliseconds wait(0); wait < std::chrono::seconds(60);
       wait = wait * 3 + std::chrono::milliseconds(20)) {
    const int signal_number = stops % 2 == 0 ? SIGINT : SIGTERM;
    const int code = run_and_signal(arguments, broken, wait, signal_number);
    if (code == 0) break;
    ASSERT_EQ(code, 128 + signal_number);
    ++stops;
    EXPECT_TRUE(fs::exists(broken / "resume.cbor"));
    EXPECT_NE(test::read_text(broken / "forecast.json").find("stopped by the user"), std::string::npos);
    EXPECT_FALSE(fs::exists(broken / "plan.json"));
    arguments = {command, site, "-o", broken.string(), "--resume"};
  }
  EXPECT_GE(stops, 1);
  EXPECT_EQ(files_of(broken), files_of(whole));
}

INSTANTIATE_TEST_SUITE_P(Commands, Interrupted, testing::Values("forecast", "plan"));

TEST(Resume, RefusesAChangedSiteFileAndAFolderWithoutACheckpoint) {
  const test::Folder folder;
  std::string text = yard();
  const std::string site = folder.write("site.toml", text).string();
  const std::string out = (folder.path() / "out").string();
  const std::string command = "forecast '" + site + "' -o '" + out + "'";
  EXPECT_EQ(test::run_app(command + " --resume").code, 2);
  EXPECT_FALSE(fs::exists(out));
  // Stopped before the first forecast had begun, there would be nothing that can have changed.
  const auto begun = [&] {
    return test::read_text(fs::path(out) / "forecast.json").find("\"vessel\"") != std::string::npos;
  };
  for (std::chrono::milliseconds wait(0); wait < std::chrono::seconds(10) && !begun();
       wait += std::chrono::milliseconds(10))
    ASSERT_EQ(run_and_signal({"forecast", site, "-o", out}, out, wait, SIGINT), 130);
  const auto before = files_of(out);
  const std::string fill = "fill_height = \"1.40 m\"";
  text.replace(text.find(fill), fill.size(), "fill_height = \"1.39 m\"");
  (void)folder.write("site.toml", text);
  const test::Outcome changed = test::run_app(command + " --resume");
  EXPECT_EQ(changed.code, 2);
  EXPECT_NE(changed.text.find("has changed since it was stopped: the vessel"), std::string::npos) << changed.text;
  EXPECT_EQ(test::run_app(command + " --days 100 --resume").code, 2);
  EXPECT_EQ(files_of(out), before);
}

}  // namespace
}  // namespace stillheap::site
