#pragma once
#include <chrono>
#include <functional>

#include "planning/study/folder.hpp"
#include "planning/study/run_case.hpp"

namespace stillheap::study {

/// What one worker needs to know of the others: nothing but where to begin.
struct WorkRule {
  double begin_share = 0.0;                          ///< where in the list of cases, 0..1, so that few want the same
  std::chrono::duration<double> stale_after{120.0};  ///< chosen: NFS may show a change a minute late
  std::chrono::duration<double> wait{0.5};           ///< before a second look at cases in work elsewhere; then longer
};

/// Works on open cases until all are finished or `keep_on` says stop; true when all are finished. Any number of workers
/// may do so at once, in this process, on this machine or on others that share the folder: a finished case is never
/// run again, and one whose worker was lost is. Throws RunError when the folder fails.
bool work(const Folder& folder, const Study& study, const std::vector<Case>& cases, const WorkRule& rule,
          const std::function<bool()>& keep_on, const plan::ForecastFunction& forecast = plan::forecast_engine());

}  // namespace stillheap::study
