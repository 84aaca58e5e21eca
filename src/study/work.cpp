#include "study/work.hpp"

#include <algorithm>
#include <thread>

#include "study/claim.hpp"

namespace stillheap::study {
namespace {

struct Worker {
  const Folder& folder;
  const Study& study;
  const std::function<bool()>& keep_on;
  const plan::ForecastFunction& forecast;
  Claims claims;
};

enum class Turn { finished, busy, stopped };

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
  if (is_finished(worker.folder, one.number)) return Turn::finished;
  TakeResult taken = worker.claims.take(name);
  if (taken.kind == TakeResult::Kind::busy) return Turn::busy;
  if (taken.kind == TakeResult::Kind::lost_too_often) {
    keep(worker.folder, lost(one.number));
    worker.claims.clear(name);
    return Turn::finished;
  }
  // Between the look and the claim the last owner may have finished and let go.
  if (is_finished(worker.folder, one.number)) return Turn::finished;
  const std::optional<CaseResult> result = run_case(worker.study, one, worker.keep_on, worker.forecast);
  if (!result) return Turn::stopped;
  keep(worker.folder, *result);
  taken.claim->finish();
  return Turn::finished;
}

void wait(const std::chrono::duration<double> span, const std::function<bool()>& keep_on) {
  const auto end = std::chrono::steady_clock::now() + span;
  while (std::chrono::steady_clock::now() < end && keep_on())
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
}

}  // namespace

bool work(const Folder& folder, const Study& study, const std::vector<Case>& cases, const WorkRule& rule,
          const std::function<bool()>& keep_on, const plan::ForecastFunction& forecast) {
  Worker worker{folder, study, keep_on, forecast, Claims(folder.claims(), rule.stale_after)};
  std::vector<const Case*> open;
  for (const Case& one : cases) open.push_back(&one);
  const auto begin = static_cast<std::ptrdiff_t>(rule.begin_share * static_cast<double>(open.size()));
  std::rotate(open.begin(), open.begin() + std::min(begin, static_cast<std::ptrdiff_t>(open.size())), open.end());
  while (!open.empty()) {
    std::vector<const Case*> busy;
    for (const Case* one : open) {
      if (!keep_on()) return false;
      const Turn turn = look_after(worker, *one);
      if (turn == Turn::stopped) return false;
      if (turn == Turn::busy) busy.push_back(one);
    }
    if (busy.size() == open.size()) wait(rule.wait, keep_on);
    open = std::move(busy);
  }
  return true;
}

}  // namespace stillheap::study
