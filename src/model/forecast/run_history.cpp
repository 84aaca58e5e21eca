#include "model/forecast/run_history.hpp"

#include "model/forecast/runner.hpp"

namespace stillheap::forecast {

RunHistory follow(const Heap& heap, const StepRule& rule, const TrackWish& wish,
                  const std::function<bool(double)>& keep_on) {
  Runner walker(heap, rule, wish);
  bool asked_to_stop = false;
  while (!walker.ended() && !asked_to_stop) {
    walker.step();
    asked_to_stop = !keep_on(walker.share());
  }
  RunHistory track = walker.track();
  if (!walker.ended()) track.stopped = "stopped by the user";
  return track;
}

}  // namespace stillheap::forecast
