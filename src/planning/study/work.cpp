#include "planning/study/work.hpp"

#include <algorithm>
#include <thread>

#include "planning/study/claim.hpp"

namespace stillheap::study {
namespace {

// So that a file system shared by hundreds is not asked about every case by every worker. All chosen.
constexpr int list_after = 8;            ///< finished cases met in a row until the folder is listed
constexpr std::size_t most_watched = 4;  ///< cases in work elsewhere that one who has nothing to do looks at
constexpr std::chrono::duration<double> longest_wait{5.0};

struct Worker {
  const Folder& folder;
  const Study& study;
  const std::function<bool()>& keep_on;
  const plan::ForecastFunction& forecast;
  Claims claims;
  std::vector<bool> finished;  ///< by number, as far as known
  int met = 0;                 ///< finished ones in a row that were not known
};

enum class Turn { finished, ran, busy, stopped };

bool knows_finished(Worker& worker, int number) {
  if (worker.finished[static_cast<std::size_t>(number)]) return true;
  if (!is_finished(worker.folder, number)) return false;
  if (++worker.met == list_after) {
    worker.finished = finished_cases(worker.folder, worker.finished.size() - 1);
    worker.met = 0;
  }
  return true;
}

CaseResult lost(int number) {
  return {number,
          State::failed,
          "its worker was lost " + std::to_string(most_turns) +
              " times (killed, out of memory, or a fault of the program); take its file in cases/ away to try again",
          {},
          process_name(),
          0.0,
          0.0};
}

/// One look at one case: finished already, in work elsewhere, or ours to run.
Turn look_after(Worker& worker, const Case& one) {
  const std::string name = case_name(one.number);
  if (knows_finished(worker, one.number)) return Turn::finished;
  worker.met = 0;
  TakeResult taken = worker.claims.take(name);
  if (taken.kind == TakeResult::Kind::busy) return Turn::busy;
  if (taken.kind == TakeResult::Kind::lost_too_often) {
    keep(worker.folder, lost(one.number));
    worker.claims.clear(name);
    return Turn::ran;
  }
  // Between the look and the claim the last owner may have finished and let go.
  if (is_finished(worker.folder, one.number)) return Turn::finished;
  const std::optional<CaseResult> result = run_case(worker.study, one, worker.keep_on, worker.forecast);
  if (!result) return Turn::stopped;
  keep(worker.folder, *result);
  taken.claim->finish();
  return Turn::ran;
}

void wait(const std::chrono::duration<double> span, const std::function<bool()>& keep_on) {
  const auto end = std::chrono::steady_clock::now() + span;
  while (std::chrono::steady_clock::now() < end && keep_on())
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
}

std::vector<const Case*> in_order_from(const std::vector<Case>& cases, double share) {
  std::vector<const Case*> open;
  open.reserve(cases.size());
  for (const Case& one : cases) open.push_back(&one);
  const auto begin = static_cast<std::ptrdiff_t>(share * static_cast<double>(open.size()));
  std::rotate(open.begin(), open.begin() + std::min(begin, static_cast<std::ptrdiff_t>(open.size())), open.end());
  return open;
}

/// Goes through the open cases once and leaves those that others have in work. With `watching` only the first few of
/// these are looked at: every worker has others first, so that all are watched by someone.
Turn go_through(Worker& worker, std::vector<const Case*>& open, bool watching) {
  Turn best = Turn::busy;
  std::vector<const Case*> busy;
  for (const Case* one : open) {
    if (!worker.keep_on()) return Turn::stopped;
    const bool looked_at = !watching || busy.size() < most_watched;
    const Turn turn = looked_at ? look_after(worker, *one) : Turn::busy;
    if (turn == Turn::stopped) return turn;
    if (turn == Turn::busy) busy.push_back(one);
    if (turn == Turn::ran) best = turn;
  }
  open = std::move(busy);
  return best;
}

}  // namespace

bool work(const Folder& folder, const Study& study, const std::vector<Case>& cases, const WorkRule& rule,
          const std::function<bool()>& keep_on, const plan::ForecastFunction& forecast) {
  Worker worker{folder, study, keep_on, forecast, Claims(folder.claims(), rule.stale_after), {}, 0};
  worker.finished.assign(cases.size() + 1, false);
  std::vector<const Case*> open = in_order_from(cases, rule.begin_share);
  auto pause = rule.wait;
  bool watching = false;
  while (!open.empty()) {
    const Turn turn = go_through(worker, open, watching);
    if (turn == Turn::stopped) return false;
    watching = turn == Turn::busy;
    if (watching && !open.empty()) wait(pause, keep_on);
    pause = watching ? std::min(1.5 * pause, longest_wait) : rule.wait;
  }
  return true;
}

}  // namespace stillheap::study
