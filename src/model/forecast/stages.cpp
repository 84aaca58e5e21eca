#include "model/forecast/stages.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/base/constants.hpp"
#include "model/forecast/cold_twin.hpp"
#include "model/forecast/ensemble.hpp"

namespace stillheap::forecast {
namespace {

/// The share of the work that the middle line takes in the progress shown; the ensemble takes the rest.
constexpr double middle_share = 0.7;

/// What all pieces of work share.
struct Work {
  const Request& request;
  const Progress& progress;
  Checkpoint& checkpoint;
  const Keeper& keeper;
  unsigned most_threads = 0;
  double middle_part = 1.0;
  bool asked_to_stop = false;

  bool keep_on(double share, const char* what) {
    if (progress && !progress(share, what)) asked_to_stop = true;
    return !asked_to_stop;
  }
  void keep_when_due() const {
    if (keeper.due && keeper.due()) keeper.keep(checkpoint);
  }
};

/// Goes on with a walk, or begins it, until its end or until asked to stop. Leaves in `walk` where it stands.
RunHistory walk_on(const Heap& heap, const TrackWish& wish, std::optional<RunState>& walk, Work& work,
                   const std::function<bool(double)>& keep_on) {
  const StepRule rule = step_rule(heap.request.grid);
  Runner walker = walk ? Runner(heap, rule, wish, std::move(*walk)) : Runner(heap, rule, wish);
  while (!walker.ended()) {
    walker.step();
    if (!keep_on(walker.share())) break;
    if (!work.keeper.due || !work.keeper.due()) continue;
    walk = walker.walk();
    work.keeper.keep(work.checkpoint);
  }
  walk = walker.walk();
  return walker.track();
}

RunHistory take_middle(const Heap& heap, Work& work) {
  const double history_s = work.request.grid == Grid::draft ? constant::seconds_per_day : 21600.0;
  return walk_on(heap, {history_s, true, work.request.animated}, work.checkpoint.middle, work,
                 [&](double share) { return work.keep_on(work.middle_part * share, "forecast, middle line"); });
}

RunHistory take_draft(Work& work) {
  const Member member = middle_member(on_grid(work.request, Grid::draft));
  const Heap heap = make_heap(member.request, member.parameters, grid_size(member.request.design, Grid::draft));
  return walk_on(heap, {}, work.checkpoint.draft, work,
                 [&](double) { return work.keep_on(work.middle_part, "forecast, draft of the middle line"); });
}

std::vector<RunHistory> take_members(Work& work) {
  const Request& request = work.request;
  run_members(
      draw_members(on_grid(request, Grid::draft), request.members, request.seed), work.checkpoint.members,
      [&](double share) { return work.keep_on(work.middle_part + (1.0 - work.middle_part) * share, "forecast, band"); },
      [&] { work.keep_when_due(); }, work.most_threads);
  return finished_tracks(work.checkpoint.members);
}

bool has_reached_end(const RunState& walk, const Request& request) {
  return walk.stepper.state.time_s >= request.days * constant::seconds_per_day - 1e-6;
}

bool all_ended(const std::vector<std::optional<RunHistory>>& members, int wanted) {
  return std::count_if(members.begin(), members.end(), [](const auto& track) { return track.has_value(); }) == wanted;
}

std::string where_stopped(const Checkpoint& checkpoint, int members, bool middle_ended) {
  char text[96];
  if (middle_ended) {
    const auto& tracks = checkpoint.members;
    const auto done = std::count_if(tracks.begin(), tracks.end(), [](const auto& track) { return track.has_value(); });
    std::snprintf(text, sizeof text, "stopped by the user after %d of the %d runs of the band", static_cast<int>(done),
                  members);
  } else {
    std::snprintf(text, sizeof text, "stopped by the user on day %.1f",
                  checkpoint.middle->stepper.state.time_s / constant::seconds_per_day);
  }
  return text;
}

/// The twin takes a second and is run anew by a run that goes on, so no checkpoint keeps it; it runs as far as the
/// middle line came.
void note_all_heat(Stages& stages, const Request& request, Checkpoint& checkpoint) {
  if (stages.middle.history.empty()) return;
  Request so_far = request;
  so_far.days = std::clamp(static_cast<int>(std::ceil(stages.middle.history.back().day)), 1, request.days);
  stages.twin = cold_twin(so_far, [](double) { return true; });
  note_heat(stages.middle, stages.twin);
  note_heat(stages.draft, stages.twin);
  for (RunHistory& track : stages.members) note_heat(track, stages.twin);
  for (std::optional<RunHistory>& track : checkpoint.members) {
    if (track) note_heat(*track, stages.twin);
  }
}

}  // namespace

Request on_grid(const Request& request, Grid grid) {
  Request same = request;
  same.grid = grid;
  if (grid == Grid::draft) same.weather = weather::daily_means(request.weather);
  return same;
}

Stages run_stages(const Heap& heap, const Request& request, const Progress& progress, Checkpoint& checkpoint,
                  const Keeper& keeper, unsigned most_threads) {
  Work work{request, progress, checkpoint, keeper, most_threads, request.members > 0 ? middle_share : 1.0};
  Stages stages;
  stages.middle = take_middle(heap, work);
  stages.draft = stages.middle;
  const bool middle_ended = stages.middle.stopped || has_reached_end(*checkpoint.middle, request);
  const bool band_wanted = middle_ended && !stages.middle.stopped && request.members > 0;
  if (band_wanted && !work.asked_to_stop && request.grid != Grid::draft) stages.draft = take_draft(work);
  if (band_wanted && !work.asked_to_stop) stages.members = take_members(work);
  // Asked in the very last step of all, nothing is missing.
  const bool all_done = middle_ended && (!band_wanted || all_ended(checkpoint.members, request.members));
  if (work.asked_to_stop && !all_done)
    stages.stopped_by_user = where_stopped(checkpoint, request.members, middle_ended);
  note_all_heat(stages, request, checkpoint);
  return stages;
}

}  // namespace stillheap::forecast
