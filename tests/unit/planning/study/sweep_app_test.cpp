#include <gtest/gtest.h>

#include <cstdlib>
#include <nlohmann/json.hpp>

#include "planning/study/folder.hpp"
#include "support.hpp"

/// The program itself: two at once, killed and gone on with, stopped, under mpirun.
namespace stillheap::study {
namespace {

using test::read_text;

/// What one undisturbed call gives.
std::string undisturbed(const test::Folder& folder, const std::filesystem::path& study) {
  EXPECT_EQ(test::wait_for(test::start_sweep(study, folder.path() / "undisturbed")), 0);
  return read_text(folder.path() / "undisturbed/runs.csv");
}

std::map<std::string, std::filesystem::file_time_type> results_in(const std::filesystem::path& out) {
  std::map<std::string, std::filesystem::file_time_type> times;
  std::error_code ignored;
  for (const auto& one : std::filesystem::directory_iterator(out / "cases", ignored)) {
    const std::string name = one.path().filename().string();
    if (!name.starts_with('.')) times[name] = one.last_write_time();
  }
  return times;
}

bool some_but_not_all(const std::filesystem::path& out, std::size_t all) {
  const std::size_t done = results_in(out).size();
  return done > 0 && done < all;
}

/// A call went on where another left off: the same numbers, and nothing that was finished ran again.
void expect_gone_on(const std::filesystem::path& study, const std::filesystem::path& out, const std::string& expected) {
  const auto before = results_in(out);
  EXPECT_GT(before.size(), 0U);
  EXPECT_LT(before.size(), 6U);
  EXPECT_EQ(test::wait_for(test::start_sweep(study, out)), 0);
  const auto after = results_in(out);
  EXPECT_EQ(after.size(), 6U);
  for (const auto& [name, time] : before) EXPECT_EQ(after.at(name), time) << name << " ran again";
  EXPECT_EQ(read_text(out / "runs.csv"), expected);
  EXPECT_TRUE(std::filesystem::is_empty(out / "claims"));
}

std::set<std::string> workers_of(const std::filesystem::path& out) {
  std::set<std::string> by;
  for (const auto& [name, time] : results_in(out))
    by.insert(nlohmann::json::parse(read_text(out / "cases" / name)).at("by").get<std::string>());
  return by;
}

/// Processes of this program below another, parents first.
std::vector<pid_t> programs_below(pid_t parent) {
  std::vector<pid_t> found;
  const std::string list = "/proc/" + std::to_string(parent) + "/task/" + std::to_string(parent) + "/children";
  std::istringstream numbers(read_text(list));
  for (pid_t child = 0; numbers >> child;) {
    std::error_code ignored;
    const auto program = std::filesystem::read_symlink("/proc/" + std::to_string(child) + "/exe", ignored);
    if (program.filename() == "stillheap") found.push_back(child);
    for (const pid_t deeper : programs_below(child)) found.push_back(deeper);
  }
  return found;
}

/// Six drafts of so many days, and what an undisturbed call gives of them.
struct Six {
  explicit Six(int days)
      : study(test::write_study(folder, test::six_drafts(days))), expected(undisturbed(folder, study)) {}
  test::Folder folder;
  std::filesystem::path study;
  std::string expected;
  std::filesystem::path out = folder.path() / "out";
};

TEST(Sweep, OfTwoCallsAtOnceSharesTheWork) {
  const Six six(200);
  const pid_t one = test::start_sweep(six.study, six.out, {"--workers", "1"});
  const pid_t other = test::start_sweep(six.study, six.out, {"--workers", "1"});
  EXPECT_EQ(test::wait_for(one), 0);
  EXPECT_EQ(test::wait_for(other), 0);
  EXPECT_EQ(read_text(six.out / "runs.csv"), six.expected);
  EXPECT_EQ(workers_of(six.out).size(), 2U);
}

TEST(Sweep, GoesOnAfterItWasKilled) {
  const Six six(400);
  const pid_t call = test::start_sweep(six.study, six.out, {"--workers", "2"});
  ASSERT_TRUE(test::wait_until([&] { return some_but_not_all(six.out, 6); }));
  const std::vector<pid_t> workers = programs_below(call);
  ASSERT_EQ(workers.size(), 2U);
  ::kill(call, SIGKILL);
  for (const pid_t worker : workers) ::kill(worker, SIGKILL);
  EXPECT_EQ(test::wait_for(call), -SIGKILL);
  expect_gone_on(six.study, six.out, six.expected);
}

TEST(Sweep, DoesAKilledWorkersWorkAgain) {
  const Six six(400);
  const pid_t call = test::start_sweep(six.study, six.out, {"--workers", "2"});
  ASSERT_TRUE(test::wait_until([&] { return some_but_not_all(six.out, 6); }));
  const std::vector<pid_t> workers = programs_below(call);
  ASSERT_EQ(workers.size(), 2U);
  EXPECT_EQ(::kill(workers.front(), SIGKILL), 0);
  EXPECT_EQ(test::wait_for(call), 0);
  EXPECT_EQ(results_in(six.out).size(), 6U);
  EXPECT_EQ(read_text(six.out / "runs.csv"), six.expected);
}

TEST(Sweep, StopsCleanlyOnCtrlC) {
  const Six six(400);
  const pid_t call = test::start_sweep(six.study, six.out, {"--workers", "1"});
  ASSERT_TRUE(test::wait_until([&] { return some_but_not_all(six.out, 6); }));
  ::kill(call, SIGINT);
  EXPECT_EQ(test::wait_for(call), 128 + SIGINT);
  EXPECT_TRUE(std::filesystem::is_empty(six.out / "claims"));
  expect_gone_on(six.study, six.out, six.expected);
}

TEST(Sweep, TellsWhatIsWrongAndMakesNothing) {
  const test::Folder folder;
  const auto study = test::write_study(folder, "[vary.\"vessel.height\"]\nlist = [\"9 m\"]\n");
  const auto out = folder.path() / "out";
  const auto outcome = site::test::run_app("sweep '" + study.string() + "' -o '" + out.string() + "'");
  EXPECT_EQ(outcome.code, 2) << outcome.text;
  EXPECT_NE(outcome.text.find("vessel.ring.height = \"9 m\" is too large"), std::string::npos) << outcome.text;
  EXPECT_FALSE(std::filesystem::exists(out));
}

/// Open MPI wants root to say that it means it; tests in containers run as root.
std::vector<std::string> mpirun(int ranks) {
  std::vector<std::string> words{"mpirun", "--oversubscribe", "-n", std::to_string(ranks)};
  if (::geteuid() == 0) words.insert(words.begin() + 1, "--allow-run-as-root");
  return words;
}

bool has_mpirun() { return std::system("mpirun --version >/dev/null 2>&1") == 0; }

pid_t start_ranks(const std::filesystem::path& study, const std::filesystem::path& out) {
  std::vector<std::string> words = mpirun(2);
  for (const std::string& word : {test::app(), std::string("sweep"), study.string(), std::string("-o"), out.string()})
    words.push_back(word);
  return test::start(words);
}

TEST(Ranks, ShareTheWork) {
  if (!has_mpirun()) GTEST_SKIP() << "mpirun is not here: install openmpi-bin";
  const Six six(400);
  EXPECT_EQ(test::wait_for(start_ranks(six.study, six.out)), 0);
  EXPECT_EQ(read_text(six.out / "runs.csv"), six.expected);
  EXPECT_EQ(workers_of(six.out).size(), 2U);
}

TEST(Ranks, LoseTheirWorkerAndDoItsWorkAgain) {
  if (!has_mpirun()) GTEST_SKIP() << "mpirun is not here: install openmpi-bin";
  const Six six(400);
  const pid_t launcher = start_ranks(six.study, six.out);
  ASSERT_TRUE(test::wait_until([&] { return some_but_not_all(six.out, 6); }));
  const std::vector<pid_t> programs = programs_below(launcher);  // rank, its worker, rank, its worker
  ASSERT_EQ(programs.size(), 4U);
  EXPECT_EQ(::kill(programs[1], SIGKILL), 0);
  EXPECT_EQ(test::wait_for(launcher), 0);
  EXPECT_EQ(read_text(six.out / "runs.csv"), six.expected);
}

TEST(Ranks, AreGoneOnWithWhenOneIsKilled) {
  if (!has_mpirun()) GTEST_SKIP() << "mpirun is not here: install openmpi-bin";
  const Six six(500);
  const pid_t launcher = start_ranks(six.study, six.out);
  ASSERT_TRUE(test::wait_until([&] { return some_but_not_all(six.out, 6); }));
  const std::vector<pid_t> programs = programs_below(launcher);
  ASSERT_EQ(programs.size(), 4U);
  EXPECT_EQ(::kill(programs[0], SIGKILL), 0);
  EXPECT_NE(test::wait_for(launcher), 0);  // Open MPI ends the job with a lost rank
  ASSERT_TRUE(test::wait_until(
      [&] { return std::none_of(programs.begin(), programs.end(), [](pid_t one) { return ::kill(one, 0) == 0; }); }));
  expect_gone_on(six.study, six.out, six.expected);
}

}  // namespace
}  // namespace stillheap::study
