#include "present/server/state_cache.hpp"

namespace stillheap::server {

void StateCache::forget_touched(const record::Store& store) {
  // The waterline first: what comes in between is then found once more, not missed.
  const record::Waterline line = record::waterline(store);
  const record::Touched touched = record::touched_since(store, seen_);
  seen_ = line;
  if (touched.all) return by_fill_.clear();
  for (const std::string& fill : touched.fills) by_fill_.erase(fill);
}

std::vector<yard::VesselState> StateCache::states(const record::Store& store, const site::Site& site,
                                                  record::Instant at) {
  const std::lock_guard lock(mutex_);
  forget_touched(store);
  std::map<std::string, yard::VesselState> kept;
  std::vector<yard::VesselState> states;
  for (const record::VesselGlance& glance : record::yard(store)) {
    if (!glance.fill || glance.fill->filled_at > at) continue;
    const std::string& fill = glance.fill->mark.thing;
    const auto found = by_fill_.find(fill);
    if (found != by_fill_.end() && std::chrono::abs(at - found->second.at) < longest) {
      kept.insert(by_fill_.extract(found));
    } else {
      yard::VesselState state = yard::state_of(store, glance, &site, at);
      state.tracks.clear();  // a year of readings that nobody asks for
      kept.emplace(fill, std::move(state));
    }
    states.push_back(kept.at(fill));
  }
  by_fill_ = std::move(kept);
  return states;
}

}  // namespace stillheap::server
