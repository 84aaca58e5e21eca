#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <memory>
#include <thread>

#include "commands.hpp"
#include "core/base/error.hpp"
#include "planning/study/claim.hpp"
#include "planning/study/crew.hpp"
#include "planning/study/launcher.hpp"
#include "planning/study/sweep.hpp"
#include "planning/study/work.hpp"
#include "present/sheet/study_page.hpp"
#include "progress_bar.hpp"

namespace stillheap::app {
namespace {

constexpr int signal_code = 128;  // shells say 128 + n for a program ended by signal n
constexpr std::chrono::seconds look_every{2};

struct SweepOptions {
  std::filesystem::path study;
  std::filesystem::path out;
  int workers = 0;  ///< 0: one a processor, or one when a launcher started several of us
  double stale_after_s = 120.0;
};

/// What all steps of a sweep need.
struct Sweep {
  study::Study study;
  std::vector<study::Case> cases;
  study::Folder folder;
  study::Rank rank;
  int workers = 1;
  std::chrono::duration<double> stale_after;
  unsigned threads = 1;  ///< of one worker, for a band
};

bool keep_on() { return stop_signal() == 0; }

void work_as(const Sweep& sweep, int worker) {
  study::WorkRule rule;
  rule.stale_after = sweep.stale_after;
  rule.begin_share = (sweep.rank.number + static_cast<double>(worker) / sweep.workers) / sweep.rank.count;
  (void)study::work(sweep.folder, sweep.study, sweep.cases, rule, keep_on, plan::forecast_engine(sweep.threads));
}

/// Told by the first rank alone: the folder knows of all.
bool tell(const Sweep& sweep, ProgressBar& bar, std::chrono::steady_clock::time_point& looked) {
  const auto now = std::chrono::steady_clock::now();
  if (sweep.rank.number == 0 && now - looked > look_every) {
    looked = now;
    const std::size_t done = study::count_finished(sweep.folder);
    (void)bar(static_cast<double>(done) / static_cast<double>(sweep.cases.size()),
              fmt::format("{} of {} cases", done, sweep.cases.size()));
  }
  return keep_on();
}

[[noreturn]] void leave_stopped(const Sweep& sweep) {
  if (sweep.rank.number == 0) {
    fmt::print(stderr, "Stopped: {} of {} cases are finished and kept. To go on, give the same command again.\n",
               study::count_finished(sweep.folder), sweep.cases.size());
  }
  throw CLI::RuntimeError(signal_code + stop_signal());
}

void run_all(const Sweep& sweep) {
  ProgressBar bar;
  auto looked = std::chrono::steady_clock::now();
  const int most_lost = study::most_turns * static_cast<int>(sweep.cases.size());
  const study::CrewResult crew = study::run_crew(
      sweep.workers, most_lost, [&](int worker) { work_as(sweep, worker); }, [&] { return tell(sweep, bar, looked); });
  if (crew.lost > 0) fmt::print(stderr, "Workers lost: {}. What they had begun was done again.\n", crew.lost);
  if (!keep_on()) leave_stopped(sweep);
  if (crew.failed) {
    throw RunError("sweep", "a worker could not go on; its reason stands above",
                   "mend that and give the same command again: finished cases are kept");
  }
}

/// Drawn aside and put in place whole: cairo writes to files itself, and on a full disk leaves half of one.
void write_sheet(const study::Findings& findings, const study::Folder& folder) {
  const std::filesystem::path aside = study::aside_of(folder.path / "sheet");
  std::error_code error;
  std::filesystem::create_directory(aside, error);
  if (error) {
    throw RunError(aside.string(), "the folder cannot be made (" + error.message() + ')',
                   "choose a folder that can be written and has room");
  }
  try {
    for (const std::filesystem::path& file : sheet::write_study_sheet(findings, aside))
      study::move_in_place(file, folder.path / file.filename());
  } catch (const Error&) {
    std::filesystem::remove_all(aside, error);
    throw;
  }
  std::filesystem::remove(aside, error);
}

void write_all(const Sweep& sweep) {
  const study::Findings findings = study::gather(sweep.folder, sweep.study, sweep.cases);
  study::clear_claims(sweep.folder);
  write_sheet(findings, sweep.folder);
  study::write_results(findings, sweep.folder);  // last: runs.nc tells others that all is there
}

void print_summary(const Sweep& sweep) {
  if (sweep.rank.number != 0) return;
  std::cout << std::ifstream(sweep.folder.path / "summary.txt").rdbuf();
  std::cout << "Written to " << sweep.folder.path.string()
            << ": runs.nc (NetCDF-4) and runs.csv with every number; tradeoffs.pdf, .svg and .png; summary.txt.\n";
}

/// One worker a processor, or one when a launcher started several of us; processors left over share a band's runs.
void share_out(Sweep& sweep) {
  const int processors = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  if (sweep.workers == 0) sweep.workers = sweep.rank.launched ? 1 : processors;
  sweep.workers = std::min(sweep.workers, static_cast<int>(sweep.cases.size()));
  if (!sweep.rank.launched) sweep.threads = static_cast<unsigned>(std::max(1, processors / sweep.workers));
}

void run_sweep(const SweepOptions& options) {
  Sweep sweep{study::read_study(options.study),
              {},
              {options.out},
              study::rank_from_environment(),
              options.workers,
              std::chrono::duration<double>(options.stale_after_s),
              1};
  sweep.cases = study::cases_of(sweep.study);
  share_out(sweep);
  study::prepare(sweep.folder, sweep.study, sweep.cases, STILLHEAP_VERSION);
  const StopOnSignal guard;
  run_all(sweep);
  if (!study::do_once(sweep.folder, sweep.stale_after, keep_on, [&] { write_all(sweep); })) leave_stopped(sweep);
  print_summary(sweep);
}

}  // namespace

void add_sweep(CLI::App& app) {
  const auto options = std::make_shared<SweepOptions>();
  CLI::App* command = app.add_subcommand(
      "sweep", "Plan and forecast one site many times with some of its values varied, on all processors or many hosts");
  command->add_option("STUDY", options->study, "Study file: site, what is varied and how; see docs/studies.md")
      ->required();
  command
      ->add_option("-o,--output", options->out,
                   "Folder to write into, shared by all who work on the study; one that was begun is gone on with")
      ->required()
      ->type_name("DIR");
  command
      ->add_option("--workers", options->workers,
                   "Processes of this call; else one a processor, or one where mpirun or srun started several calls")
      ->check(CLI::Range(1, 4096))
      ->type_name("N");
  command
      ->add_option("--stale-after", options->stale_after_s,
                   "Seconds without a sign of life until a worker on another host counts as lost; 120 unless given")
      ->check(CLI::Range(1.0, 86400.0))
      ->type_name("S");
  command->callback([options] { run_sweep(*options); });
}

}  // namespace stillheap::app
