#pragma once
#include <optional>
#include <string>
#include <vector>

#include "domain/rules/self_heating.hpp"
#include "model/forecast/run.hpp"

namespace stillheap::forecast {

/// The request with the weather as a grid sees it: daily means for the draft.
[[nodiscard]] Request on_grid(const Request& request, Grid grid);

/// What the pieces of work of a forecast leave: the middle line, the same parameters on the draft grid, and the band's
/// members that came to their end.
struct Stages {
  RunHistory middle, draft;
  std::vector<RunHistory> members;
  std::vector<rules::HeatDay> twin;            ///< without heat of its own; the runs above are noted against it
  std::optional<std::string> stopped_by_user;  ///< where, when progress asked to stop
};

/// Does them one after another from where the checkpoint stands, and leaves in it where they stand. `heap` is that of
/// the asked grid; `most_threads` as in `run_members`.
[[nodiscard]] Stages run_stages(const Heap& heap, const Request& request, const Progress& progress,
                                Checkpoint& checkpoint, const Keeper& keeper, unsigned most_threads = 0);

}  // namespace stillheap::forecast
