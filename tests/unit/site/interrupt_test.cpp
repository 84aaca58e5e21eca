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

/// Runs the program with nothing on its output and signals it after a time. Returns its exit code.
int run_and_signal(const std::vector<std::string>& arguments, std::chrono::milliseconds after, int signal_number) {
  const fs::path app = fs::canonical("/proc/self/exe").parent_path() / "stillheap";
  std::vector<char*> words{const_cast<char*>(app.c_str())};
  for (const std::string& word : arguments) words.push_back(const_cast<char*>(word.c_str()));
  words.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    (void)std::freopen("/dev/null", "w", stdout);
    (void)std::freopen("/dev/null", "w", stderr);
    ::execv(app.c_str(), words.data());
    ::_exit(127);
  }
  std::this_thread::sleep_for(after);
  ::kill(child, signal_number);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      files[entry.path().lexically_relative(folder).string()] = test::read_text(entry.path());
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
  const auto begun = std::chrono::steady_clock::now();
  ASSERT_EQ(run_and_signal({command, site, "-o", whole.string()}, std::chrono::milliseconds(0), 0), 0);
  const auto took = std::chrono::steady_clock::now() - begun;

  // A quarter of the way at a time, SIGINT and SIGTERM in turn. What a loaded machine does not reach is tried later.
  std::vector<std::string> arguments{command, site, "-o", broken.string()};
  int code = -1, stops = 0;
  auto wait = std::chrono::duration_cast<std::chrono::milliseconds>(took / 4);
  for (int run = 0; run < 40 && code != 0; ++run) {
    const int signal_number = run % 2 == 0 ? SIGINT : SIGTERM;
    code = run_and_signal(arguments, wait, signal_number);
    if (code == 0) break;
    if (code == 128 + signal_number && fs::exists(broken / "resume.cbor")) {
      ++stops;
      EXPECT_NE(test::read_text(broken / "forecast.json").find("stopped by the user"), std::string::npos);
      EXPECT_FALSE(fs::exists(broken / "plan.json"));
      arguments = {command, site, "-o", broken.string(), "--resume"};
    } else {
      ASSERT_EQ(code, -1) << "only a signal before any work may end it otherwise";
    }
    if (run % 4 == 3) wait = wait * 3 / 2;
  }
  ASSERT_EQ(code, 0);
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
  int code = -1;
  for (int milliseconds = 200; milliseconds < 20000 && code == -1; milliseconds = milliseconds * 3 / 2)
    code = run_and_signal({"forecast", site, "-o", out}, std::chrono::milliseconds(milliseconds), SIGINT);
  ASSERT_EQ(code, 130);
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
