#include <gtest/gtest.h>

#include <algorithm>

#include "core/base/error.hpp"
#include "planning/site/site.hpp"
#include "support.hpp"

namespace stillheap::site {
namespace {

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Program, InitWritesAStarterThatCheckAccepts) {
  const test::Folder folder;
  const std::string yard = (folder.path() / "yard").string();
  for (const std::string flag : {"", " --us"}) {
    std::filesystem::remove_all(yard);
    EXPECT_EQ(test::run_app("init '" + yard + "'" + flag).code, 0);
    const test::Outcome checked = test::run_app("check '" + yard + "'");
    EXPECT_EQ(checked.code, 0) << checked.text;
    EXPECT_TRUE(contains(checked.text, "no problem found"));
    EXPECT_TRUE(contains(checked.text, "longest air path")) << checked.text;
    EXPECT_TRUE(contains(checked.text, flag.empty() ? " mm" : " in")) << checked.text;
  }
}

TEST(Program, InitNeverOverwrites) {
  const test::Folder folder;
  (void)folder.write("site.toml", "mine");
  const test::Outcome outcome = test::run_app("init '" + folder.path().string() + "'");
  EXPECT_EQ(outcome.code, 2);
  EXPECT_TRUE(contains(outcome.text, "site.toml is there already")) << outcome.text;
  EXPECT_EQ(test::read_text(folder.path() / "site.toml"), "mine");
}

TEST(Program, InitEndsWithOneWhereNothingCanBeWritten) {
  const test::Folder folder;
  const std::filesystem::path file = folder.write("no-folder", "");
  const test::Outcome outcome = test::run_app("init '" + (file / "below").string() + "'");
  EXPECT_EQ(outcome.code, 1);
  EXPECT_TRUE(contains(outcome.text, "cannot be made")) << outcome.text;
}

TEST(Program, CheckPrintsJson) {
  const std::string good = std::string(STILLHEAP_SOURCE_DIR) + "/tests/data/site/good.toml";
  const test::Outcome outcome = test::run_app("check '" + good + "' --json");
  EXPECT_EQ(outcome.code, 0);
  EXPECT_TRUE(contains(outcome.text, "\"good\": true"));
  EXPECT_TRUE(contains(outcome.text, "\"longest_air_path_m\""));
}

TEST(Program, EndsWithTwoOnAWrongCommandLine) {
  EXPECT_EQ(test::run_app("").code, 2);
  EXPECT_EQ(test::run_app("chek yard").code, 2);
  EXPECT_EQ(test::run_app("check").code, 2);
  EXPECT_EQ(test::run_app("check yard --jsn").code, 2);
}

TEST(Program, EndsWithOneWithoutItsUnitDatabase) {
  const test::Folder folder;
  const std::filesystem::path app = std::filesystem::canonical("/proc/self/exe").parent_path() / "stillheap";
  const std::string command = "UDUNITS2_XML_PATH=/nowhere '" + app.string() + "' check '" + STILLHEAP_SOURCE_DIR +
                              "/tests/data/site/good.toml' 2>/dev/null";
  const int status = std::system(command.c_str());
  EXPECT_EQ(WEXITSTATUS(status), 1);
}

TEST(Program, ExplainsItself) {
  const test::Outcome version = test::run_app("--version");
  EXPECT_EQ(version.code, 0);
  EXPECT_TRUE(std::any_of(version.text.begin(), version.text.end(), [](char c) { return c >= '0' && c <= '9'; }));
  const test::Outcome help = test::run_app("--help");
  EXPECT_EQ(help.code, 0);
  EXPECT_TRUE(contains(help.text, "Examples:"));
  EXPECT_EQ(test::run_app("init --help").code, 0);
}

TEST(Program, PrintsTheCommittedReference) {
  EXPECT_EQ(test::run_app("reference").text, test::read_text(std::string(STILLHEAP_SOURCE_DIR) + "/docs/site-file.md"));
}

TEST(Program, TellsDefaultsInTheUnitsOfTheYard) {
  const test::Folder folder;
  const std::string yard = (folder.path() / "yard").string();
  EXPECT_EQ(test::run_app("init '" + yard + "' --us").code, 0);
  const std::string us = test::run_app("check '" + yard + "'").text;
  EXPECT_TRUE(contains(us, "bath.volume = 52.8 gal")) << us;
  EXPECT_TRUE(contains(us, "slat_width = 3.5 in")) << us;
  for (const char* const metric : {" mm ", " degC", "200 L", " MPa", "0 kg", " bar "})
    EXPECT_FALSE(contains(us, metric)) << metric;
  std::filesystem::remove_all(yard);
  EXPECT_EQ(test::run_app("init '" + yard + "'").code, 0);
  EXPECT_TRUE(contains(test::run_app("check '" + yard + "'").text, "fill.pail = 18.9 L"))
      << "no gallons in a metric yard";
}

/// `check` of the common round vessel's site in which one line was written otherwise.
test::Outcome checked_with(const std::string& good, const std::string& other) {
  const test::Folder folder;
  std::string text = test::read_text(std::string(STILLHEAP_SOURCE_DIR) + "/examples/common-round-us/site.toml");
  text.replace(text.find(good), good.size(), other);
  return test::run_app("check '" + folder.write("site.toml", text).string() + "'");
}

TEST(Program, SaysWhatADateMayBe) {
  const test::Outcome outcome = checked_with("first_fill = 2026-04-18", "first_fill = 2026-13-45");
  EXPECT_EQ(outcome.code, 2);
  EXPECT_TRUE(contains(outcome.text, "month 01 to 12")) << outcome.text;
  EXPECT_FALSE(contains(outcome.text, "parsing")) << outcome.text;
}

TEST(Program, TellsAClashOfChannelsInTheUnitsOfTheYard) {
  const test::Outcome outcome = checked_with("radius = \"12 in\"", "radius = \"23 in\"");
  EXPECT_EQ(outcome.code, 2);
  EXPECT_TRUE(contains(outcome.text, "on the wall")) << outcome.text;
  EXPECT_FALSE(contains(outcome.text, " mm")) << outcome.text;
}

}  // namespace
}  // namespace stillheap::site
