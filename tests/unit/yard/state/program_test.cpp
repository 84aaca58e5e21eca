#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

namespace stillheap::yard {
namespace {

using nlohmann::json;

/// A yard on disk with one vessel, filled, and the built program to run on it.
class Program {
 public:
  Program() : folder_(std::filesystem::temp_directory_path() / ("stillheap-yard-" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    (void)run("init '" + yard() + "' --us");
    note("vessel", "--name 'North 1'");
    note("fill", "--vessel 'North 1' --batch 2026-1 --at 2026-03-02T09:00");
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;
  ~Program() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  [[nodiscard]] std::string yard() const { return (folder_ / "yard").string(); }

  [[nodiscard]] std::string run(const std::string& arguments, int code = 0) const {
    const std::filesystem::path app = std::filesystem::canonical("/proc/self/exe").parent_path() / "stillheap";
    std::FILE* pipe = popen(("STILLHEAP_BY= '" + app.string() + "' " + arguments + " 2>&1").c_str(), "r");
    std::string text;
    std::array<char, 4096> buffer{};
    for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), n);
    const int status = pclose(pipe);
    EXPECT_EQ(WIFEXITED(status) ? WEXITSTATUS(status) : -1, code) << text;
    return text;
  }
  void note(const std::string& kind, const std::string& rest) const {
    (void)run("record " + kind + " '" + yard() + "' --by ab --zone Europe/Paris " + rest);
  }
  void read(int day, const std::string& temperature, const std::string& place) const {
    const std::string date = "2026-03-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + "T08:00";
    note("reading", "--fill 2026-1 --temperature '" + temperature + "' --place " + place +
                        " --depth '18 in' --radius '0 in' --at " + date);
  }

 private:
  std::filesystem::path folder_;
};

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(YardProgram, TellsTheStateOfEveryVesselWithReadingAndRule) {
  const Program program;
  program.note("vessel", "--name 'South 2'");
  for (int day = 3; day < 9; ++day) program.read(day, day == 3 ? "95 degF" : "140 degF", "core");
  const std::string when = " --at 2026-03-08T12:00 --zone Europe/Paris";
  const std::string told = program.run("status '" + program.yard() + "'" + when);
  EXPECT_TRUE(contains(told, "North 1: batch 2026-1, day 6")) << told;
  EXPECT_TRUE(contains(told, "South 2: empty")) << told;
  EXPECT_TRUE(contains(told, "hot: The heap is hot, since 2026-03-04 08:00.")) << told;
  EXPECT_TRUE(contains(told, "rule: warmest probe at 113 degF or more")) << "in the site's units:\n" << told;
  EXPECT_TRUE(contains(told, "\"static-aerated-55\" is met at 1 of 1 probe position")) << told;
  const json seen = json::parse(program.run("status '" + program.yard() + "' --json" + when));
  const json& insight = seen.at("vessels").at(0).at("fill").at("insight");
  EXPECT_EQ(insight.at("phase").at("now"), "hot");
  EXPECT_EQ(insight.at("worms").at("answer"), "no");
}

TEST(YardProgram, PutsWhatPressesFirstToday) {
  const Program program;
  for (int day = 3; day < 8; ++day) program.read(day, "140 degF", "core");
  program.read(8, "160 degF", "core");
  const std::string when = " --at 2026-03-08T12:00 --zone Europe/Paris";
  const std::string told = program.run("today '" + program.yard() + "'" + when);
  EXPECT_TRUE(told.starts_with("warning: North 1: Read again today")) << told;
  EXPECT_TRUE(contains(told, "160 degF")) << told;
  EXPECT_TRUE(contains(told, "caution: ")) << told;
  EXPECT_TRUE(contains(told, "North 1: take the forms out")) << told;
  const json due = json::parse(program.run("today '" + program.yard() + "' --json" + when)).at("due");
  EXPECT_EQ(due.at(0).at("id"), "too-hot");
  EXPECT_EQ(due.at(0).at("weight"), "warning");
}

TEST(YardProgram, RefusesToLearnFromTooLittle) {
  const Program program;
  for (int day = 3; day < 9; ++day) program.read(day, "140 degF", "core");
  const std::string told = program.run("calibrate '" + program.yard() + "' --fill 2026-1", 2);
  EXPECT_TRUE(contains(told, "read on 6 days, at least 10")) << told;
}

TEST(YardProgram, RefusesToLearnWhereItCannotKeepOrFromTheFutureBeforeItBegins) {
  const Program program;
  for (int day = 3; day < 20; ++day) program.read(day, "140 degF", "core");
  const std::string command = "calibrate '" + program.yard() + "' --fill 2026-1";
  EXPECT_TRUE(contains(program.run(command + " --at 2090-01-01T08:00", 2), "lies ahead"));
  std::FILE* file = std::fopen((program.yard() + "/site.learned").c_str(), "w");
  std::fclose(file);
  EXPECT_TRUE(contains(program.run(command, 1), "site.learned"));
}

TEST(YardProgram, SaysWhatTheReadingsSayThoughTheSiteFileIsBroken) {
  const Program program;
  for (int day = 3; day < 7; ++day) program.read(day, "60 degC", "core");
  std::FILE* file = std::fopen((program.yard() + "/site.toml").c_str(), "w");
  std::fputs("nonsense = [", file);
  std::fclose(file);
  EXPECT_TRUE(contains(program.run("status '" + program.yard() + "' --at 2026-03-06T12:00"), "The heap is hot"));
}

}  // namespace
}  // namespace stillheap::yard
