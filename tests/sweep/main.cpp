#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <atomic>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <thread>
#include <vector>

#include "draw.hpp"
#include "judge.hpp"
#include "report.hpp"

/// Random valid vessels, blends and climates on the draft grid. Prints a table; ends with 1 when a case is at fault,
/// and leaves its site file.
namespace {

using namespace stillheap::sweep;

struct Options {
  int count = 500;
  std::uint64_t seed = 1;
  int only = -1;
  unsigned threads = std::max(1U, std::thread::hardware_concurrency());
  std::filesystem::path keep = "sweep-faults";
};

std::vector<Judged> run_all(const Options& options) {
  const int first = options.only >= 0 ? options.only : 0;
  const int count = options.only >= 0 ? 1 : options.count;
  std::vector<Judged> all(static_cast<std::size_t>(count));
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int n = next++; n < count; n = next++) {
      const Case one = draw(options.seed, first + n);
      Judged& judged = all[static_cast<std::size_t>(n)];
      judged = {one.number, one.drawn_again, one.toml, judge(one)};
      fmt::print(stderr, "case {}: {:.1f} s, {} cells, {} steps\n", one.number, judged.verdict.cpu_s,
                 judged.verdict.cells, judged.verdict.steps);
    }
  };
  std::vector<std::thread> threads;
  for (unsigned t = 0; t < options.threads; ++t) threads.emplace_back(work);
  for (std::thread& thread : threads) thread.join();
  return all;
}

void keep_site_files(const std::vector<Judged>& all, const Options& options) {
  for (const Judged& one : all) {
    if (one.verdict.faults.empty() && options.only < 0) continue;
    std::filesystem::create_directories(options.keep);
    std::ofstream(options.keep / fmt::format("seed-{}-case-{}.toml", options.seed, one.number)) << one.toml;
  }
}

int run(int argc, char** argv) {
  Options options;
  CLI::App app{"Runs random valid site files on the draft grid and looks at every cell after every step."};
  app.add_option("--count", options.count, "How many cases")->check(CLI::PositiveNumber);
  app.add_option("--seed", options.seed, "Which row of cases");
  app.add_option("--only", options.only, "One case of the row, by its number; its site file is kept");
  app.add_option("--threads", options.threads, "How many at once")->check(CLI::PositiveNumber);
  app.add_option("--keep", options.keep, "Folder for the site files of cases at fault");
  CLI11_PARSE(app, argc, argv);
  const std::vector<Judged> all = run_all(options);
  keep_site_files(all, options);
  fmt::print("{}", table_of(all, options.seed));
  return faults_of(all) == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "fault: %s\n", error.what());
    return 1;
  }
}
