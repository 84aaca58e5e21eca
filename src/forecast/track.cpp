#include "forecast/track.hpp"

#include "forecast/walk.hpp"

namespace stillheap::forecast {

Track follow(const Heap& heap, const StepRule& rule, const TrackWish& wish,
             const std::function<bool(double)>& keep_on) {
  Walker walker(heap, rule, wish);
  bool asked_to_stop = false;
  while (!walker.ended() && !asked_to_stop) {
    walker.step();
    asked_to_stop = !keep_on(walker.share());
  }
  Track track = walker.track();
  if (!walker.ended()) track.stopped = "stopped by the user";
  return track;
}

}  // namespace stillheap::forecast
