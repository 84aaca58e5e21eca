#include "planning/study/sweep.hpp"

#include <algorithm>
#include <set>
#include <thread>

#include "core/base/error.hpp"
#include "planning/study/claim.hpp"
#include "planning/study/columns.hpp"

namespace stillheap::study {
namespace {

constexpr std::size_t most_told = 20;  // chosen: a screen of problems
constexpr const char* last_work_name = "results";

/// Every problem once, however many cases have it.
class Told {
 public:
  void add(const std::string& words, const std::vector<Problem>& problems) {
    for (Problem problem : problems) {
      if (!seen_.insert(to_line(problem)).second || told_.size() == most_told) continue;
      problem.mend += " (first in the case of " + words + ')';
      told_.push_back(std::move(problem));
    }
  }
  [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return told_; }

 private:
  std::set<std::string> seen_;
  std::vector<Problem> told_;
};

}  // namespace

std::size_t check_cases(const Study& study, const std::vector<Case>& cases) {
  Told told;
  std::size_t impossible = 0;
  for (const Case& one : cases) {
    try {
      (void)site_of(study, one);
    } catch (const InputError& error) {
      ++impossible;
      told.add(words_of(study, one), error.problems());
    }
  }
  if (impossible == cases.size() || (impossible > 0 && !study.leave_out_impossible)) throw InputError(told.problems());
  return impossible;
}

void prepare(const Folder& folder, const Study& study, const std::vector<Case>& cases, const std::string& version) {
  const std::uint64_t print = print_of(study, cases, version);
  if (holds(folder, print)) return;
  (void)check_cases(study, cases);
  set_up(folder, study, print, cases.size());
}

bool do_once(const Folder& folder, std::chrono::duration<double> stale_after, const std::function<bool()>& keep_on,
             const std::function<void()>& last_work) {
  Claims claims(folder.claims(), stale_after);
  bool waited = false;
  while (keep_on()) {
    TakeResult taken = claims.take(last_work_name);
    if (taken.kind == TakeResult::Kind::lost_too_often) {
      claims.clear(last_work_name);
      throw RunError(folder.path.string(), "whoever gathered the results was lost again and again",
                     "see that there is memory enough, and run the same command again");
    }
    if (taken.claim) {
      const bool another_did = waited && std::filesystem::exists(folder.path / "runs.nc");
      if (!another_did) last_work();
      taken.claim->finish();
      return true;
    }
    waited = true;
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  return false;
}

void clear_claims(const Folder& folder) {
  std::error_code error;
  for (const auto& one : std::filesystem::directory_iterator(folder.claims(), error)) {
    const bool ours = one.path().stem() == last_work_name;
    std::error_code ignored;
    if (!ours) std::filesystem::remove(one.path(), ignored);
  }
}

void write_results(const Findings& findings, const Folder& folder) {
  const std::vector<Column> columns = columns_of(findings);
  put_in_place(folder.path / "summary.txt", summary_text(findings));
  put_in_place(folder.path / "runs.csv", runs_csv(columns));
  write_netcdf(columns, findings.study.file.filename().string() + ", " + findings.site_name, folder.path / "runs.nc");
}

}  // namespace stillheap::study
