#pragma once
#include <functional>

namespace stillheap::study {

/// What became of a crew of processes.
struct CrewResult {
  int lost = 0;         ///< workers that were killed or crashed, and were replaced
  bool failed = false;  ///< a worker said why on stderr and gave up; so did the others
};

/// Runs `work(0)` to `work(workers - 1)`, each in a process of its own, so that one that is killed takes nothing with
/// it, and waits for them. A lost one is replaced. `keep_on` is asked some ten times a second; once it says stop, all
/// are sent SIGTERM, as they are when this process ends. What a worker throws goes to stderr. To be called while this
/// process has just one thread. Throws RunError when no process can be made, or more than `most_lost` were lost.
CrewResult run_crew(int workers, int most_lost, const std::function<void(int worker)>& work,
                    const std::function<bool()>& keep_on);

}  // namespace stillheap::study
