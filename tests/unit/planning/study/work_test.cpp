#include "planning/study/work.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "planning/study/claim.hpp"
#include "planning/study/crew.hpp"
#include "planning/study/sweep.hpp"
#include "support.hpp"

namespace stillheap::study {
namespace {

using test::lines_of;

/// One line a call, whole even when many processes write.
void log(const std::filesystem::path& file, const std::string& line) {
  const int handle = ::open(file.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
  const std::string text = line + '\n';
  EXPECT_EQ(::write(handle, text.data(), text.size()), static_cast<ssize_t>(text.size()));
  ::close(handle);
}

/// A run that looks for the water programme by automatic sprinkling; the forecast itself then runs what was found.
bool finds_water(const forecast::Request& request) { return request.sprinkling.automatic; }

/// A study of six cases in a folder made ready, and an engine that logs each forecast that came to its end.
struct Bench {
  test::Folder here;
  Study study = read_study(test::write_study(here, test::six_drafts()));
  std::vector<Case> cases = cases_of(study);
  Folder folder{here.path() / "out"};
  std::filesystem::path ended = here.path() / "ended.log";

  Bench() { prepare(folder, study, cases, "test"); }

  [[nodiscard]] plan::ForecastFunction engine(const std::function<void(const forecast::Request&)>& before = {}) const {
    return [this, before](const forecast::Request& request, const plan::Progress& progress) {
      if (before) before(request);
      forecast::Result result = plan::test::small_engine()(request, progress);
      if (!finds_water(request))
        log(ended, std::to_string(request.design.diameter_m) + ' ' + std::to_string(request.blend.moisture_wet));
      return result;
    };
  }

  [[nodiscard]] bool run(const plan::ForecastFunction& forecast, const std::function<bool()>& keep_on) const {
    return work(folder, study, cases, {}, keep_on, forecast);
  }

  /// Each case ran to its end once and its result is there.
  void expect_each_once() const {
    const std::vector<std::string> lines = lines_of(ended);
    EXPECT_EQ(lines.size(), cases.size());
    EXPECT_EQ(std::set<std::string>(lines.begin(), lines.end()).size(), cases.size());
    EXPECT_EQ(count_finished(folder), cases.size());
    for (const Case& one : cases) EXPECT_EQ(read_case_result(folder.result(one.number)).state, State::done);
    EXPECT_TRUE(std::filesystem::is_empty(folder.claims()));
  }
};

bool always() { return true; }

TEST(Work, FinishesEveryCase) {
  const Bench bench;
  EXPECT_TRUE(bench.run(bench.engine(), always));
  bench.expect_each_once();
}

TEST(Work, DoesNotRunFinishedCasesAgain) {
  const Bench bench;
  int asked = 0;
  EXPECT_FALSE(bench.run(bench.engine(), [&] { return ++asked < 40; }));
  const std::size_t done = count_finished(bench.folder);
  ASSERT_GT(done, 0U);
  ASSERT_LT(done, bench.cases.size());
  EXPECT_TRUE(std::filesystem::is_empty(bench.folder.claims()));  // let go of when stopped
  std::filesystem::remove(bench.ended);
  EXPECT_TRUE(bench.run(bench.engine(), always));
  EXPECT_EQ(lines_of(bench.ended).size(), bench.cases.size() - done);
}

TEST(Work, OfManyProcessesIsShared) {
  const Bench bench;
  const auto slow = [](const forecast::Request&) { std::this_thread::sleep_for(std::chrono::milliseconds(50)); };
  const CrewResult crew = run_crew(
      3, 0, [&](int) { (void)bench.run(bench.engine(slow), always); }, always);
  EXPECT_FALSE(crew.failed);
  bench.expect_each_once();
  std::set<std::string> by;
  for (const Case& one : bench.cases) by.insert(read_case_result(bench.folder.result(one.number)).by);
  EXPECT_EQ(by.size(), 3U);
}

TEST(Work, OfManyCasesSkipsFinishedOnesByOneListing) {
  const test::Folder here;
  const Study study = read_study(
      test::write_study(here,
                        "[vary.\"vessel.panel_length\"]\nfrom = \"11 ft\"\nto = \"15 ft\"\nsteps = 41\n"
                        "[set]\n\"forecast.grid\" = \"draft\"\n\"forecast.members\" = 1\n\"forecast.days\" = 20\n"));
  const std::vector<Case> cases = cases_of(study);
  const Folder folder{here.path() / "out"};
  prepare(folder, study, cases, "test");
  for (const Case& one : cases) {
    if (one.number % 20 != 0) keep(folder, {one.number, State::failed, "kept", {}, "", 0.0, 0.0});
  }
  EXPECT_EQ(count_finished(folder), 39U);
  EXPECT_FALSE(finished_cases(folder, 41)[20]);
  EXPECT_TRUE(finished_cases(folder, 41)[41]);
  int ran = 0;
  const plan::ForecastFunction engine = [&](const forecast::Request& request, const plan::Progress& progress) {
    ran += finds_water(request) ? 0 : 1;
    return plan::test::small_engine()(request, progress);
  };
  WorkRule rule;
  rule.begin_share = 0.6;
  EXPECT_TRUE(work(folder, study, cases, rule, always, engine));
  EXPECT_EQ(ran, 2);
  EXPECT_EQ(count_finished(folder), 41U);
}

TEST(Work, OfAKilledWorkerIsDoneAgain) {
  const Bench bench;
  const std::filesystem::path hanging = bench.here.path() / "hanging";
  // The first worker to come to the fourth case says who it is and hangs in it until it is killed.
  const auto hang_once = [&](const forecast::Request& request) {
    if (request.blend.moisture_wet > 0.62 || request.design.diameter_m < 1.3) return;
    const int handle = ::open(hanging.c_str(), O_WRONLY | O_CREAT | O_EXCL, 0644);
    if (handle < 0) return;
    const std::string text = std::to_string(::getpid()) + '\n';
    EXPECT_GT(::write(handle, text.data(), text.size()), 0);
    ::close(handle);
    std::this_thread::sleep_for(std::chrono::seconds(60));
  };
  bool killed = false;
  const auto kill_it = [&] {
    const auto lines = lines_of(hanging);
    if (killed || lines.empty()) return true;
    killed = ::kill(std::stoi(lines.front()), SIGKILL) == 0;
    return true;
  };
  const CrewResult crew = run_crew(
      2, 5, [&](int) { (void)bench.run(bench.engine(hang_once), always); }, kill_it);
  EXPECT_TRUE(killed);
  EXPECT_EQ(crew.lost, 1);
  EXPECT_FALSE(crew.failed);
  bench.expect_each_once();
}

TEST(Work, OnACaseThatKillsEveryWorkerIsGivenUpAndTheOthersFinish) {
  const Bench bench;
  const auto die = [](const forecast::Request& request) {
    if (request.blend.moisture_wet < 0.62 && request.design.diameter_m > 1.3) ::kill(::getpid(), SIGKILL);
  };
  const CrewResult crew = run_crew(
      2, 20, [&](int) { (void)bench.run(bench.engine(die), always); }, always);
  EXPECT_EQ(crew.lost, most_turns);
  EXPECT_EQ(read_case_result(bench.folder.result(4)).state, State::failed);
  EXPECT_EQ(count_finished(bench.folder), bench.cases.size());
  EXPECT_EQ(gather(bench.folder, bench.study, bench.cases).done, 5U);
}

TEST(Work, RecordsACaseThatBreaksOffAndOneThatCannotBe) {
  const Bench bench;
  const plan::ForecastFunction engine = [](const forecast::Request& request, const plan::Progress& progress) {
    if (request.blend.moisture_wet < 0.62) throw RunError("forecast", "a balance is off", "report it");
    if (request.blend.moisture_wet > 0.68) throw InputError("blend", "has no air space", "dry it");
    return plan::test::small_engine()(request, progress);
  };
  EXPECT_TRUE(bench.run(engine, always));
  const Findings findings = gather(bench.folder, bench.study, bench.cases);
  EXPECT_EQ(findings.done, 2U);
  EXPECT_EQ(findings.failed, 2U);
  EXPECT_EQ(findings.impossible, 2U);
  EXPECT_NE(summary_text(findings).find("a balance is off"), std::string::npos);
}

TEST(Crew, TellsThatAWorkerGaveUp) {
  testing::internal::CaptureStderr();
  const CrewResult crew = run_crew(
      2, 5,
      [](int number) {
        if (number == 1) throw RunError("disk", "is full", "make room");
      },
      always);
  EXPECT_TRUE(crew.failed);
  EXPECT_EQ(crew.lost, 0);
  EXPECT_NE(testing::internal::GetCapturedStderr().find("is full"), std::string::npos);
}

TEST(Crew, IsStoppedWhenAsked) {
  const auto begun = std::chrono::steady_clock::now();
  (void)run_crew(
      2, 5, [](int) { std::this_thread::sleep_for(std::chrono::seconds(60)); }, [] { return false; });
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(30));
}

TEST(Crew, GivesUpWhenAllAreLost) {
  EXPECT_THROW((void)run_crew(
                   1, 3, [](int) { ::kill(::getpid(), SIGKILL); }, always),
               RunError);
}

TEST(StudyFolder, RefusesAnotherStudy) {
  const Bench bench;
  EXPECT_NO_THROW(prepare(bench.folder, bench.study, bench.cases, "test"));
  EXPECT_THROW(prepare(bench.folder, bench.study, bench.cases, "later"), InputError);
  std::ofstream(bench.study.site, std::ios::app) << "# changed\n";
  EXPECT_NO_THROW(
      prepare(bench.folder, bench.study, bench.cases, "test"));  // read before: its cases stay what they were
  EXPECT_THROW(prepare(bench.folder, read_study(bench.study.file), bench.cases, "test"), InputError);
}

TEST(StudyFolder, IsNotMadeForAStudyWithImpossibleCases) {
  const test::Folder here;
  const std::string far = "[vary.\"vessel.channels.radius\"]\nlist = [\"12 in\", \"23 in\"]\n";
  const Study refused = read_study(test::write_study(here, far));
  EXPECT_THROW(prepare({here.path() / "out"}, refused, cases_of(refused), "test"), InputError);
  EXPECT_FALSE(std::filesystem::exists(here.path() / "out"));
  const Study left_out = read_study(test::write_study(here, "impossible = \"leave out\"\n" + far));
  EXPECT_EQ(check_cases(left_out, cases_of(left_out)), 1U);
  EXPECT_NO_THROW(prepare({here.path() / "out"}, left_out, cases_of(left_out), "test"));
}

TEST(LastWork, ClearsClaimsOnFinishedCasesButNotItsOwn) {
  const Bench bench;
  EXPECT_TRUE(bench.run(bench.engine(), always));
  std::ofstream(bench.folder.claims() / "000003.1")
      << "4711 99 elsewhere\n";  // killed after it put its result in place
  EXPECT_TRUE(do_once(bench.folder, std::chrono::seconds(60), always, [&] {
    clear_claims(bench.folder);
    EXPECT_FALSE(std::filesystem::exists(bench.folder.claims() / "000003.1"));
    EXPECT_TRUE(std::filesystem::exists(bench.folder.claims() / "results.1"));
  }));
  EXPECT_TRUE(std::filesystem::is_empty(bench.folder.claims()));
}

TEST(LastWork, IsDoneByOneWhileOthersWait) {
  const Bench bench;
  const std::filesystem::path once = bench.here.path() / "once.log";
  const auto last = [&] {
    log(once, "done");
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    std::ofstream(bench.folder.path / "runs.nc") << "results";
  };
  std::vector<pid_t> children;
  for (int i = 0; i < 3; ++i) {
    const pid_t child = ::fork();
    if (child == 0) ::_exit(do_once(bench.folder, std::chrono::seconds(60), always, last) ? 0 : 1);
    children.push_back(child);
  }
  for (const pid_t child : children) EXPECT_EQ(test::wait_for(child), 0);
  EXPECT_EQ(lines_of(once).size(), 1U);
}

}  // namespace
}  // namespace stillheap::study
