#include "present/server/state_cache.hpp"

#include <set>

namespace stillheap::server {

void StateCache::mark_touched_locked(const record::Store& store) {
  // The waterline first: what comes in between is then found once more, not missed.
  const record::Waterline line = record::waterline(store);
  const record::Touched touched = record::touched_since(store, seen_);
  seen_ = line;
  const auto mark = [](Kept& kept) {
    kept.fresh = false;
    ++kept.touched;
  };
  for (auto& [fill, kept] : by_fill_) {
    if (touched.all || touched.fills.contains(fill)) mark(kept);
  }
}

yard::VesselState StateCache::state_of(const record::Store& store, const record::VesselGlance& glance,
                                       const yard::Setting& setting, record::Instant at,
                                       std::chrono::steady_clock::time_point until) {
  const std::string& fill = glance.fill->mark.thing;
  std::unique_lock lock(mutex_);
  const auto young = [&](const Kept& kept) { return kept.there && std::chrono::abs(at - kept.state.at) < longest; };
  if (by_fill_[fill].at_work) {
    worked_out_.wait_until(lock, until, [&] { return !by_fill_[fill].at_work; });
  }
  Kept& before = by_fill_[fill];
  if (young(before) && (before.fresh || before.at_work)) return before.state;
  before.at_work = true;
  const unsigned long long touched = before.touched;
  lock.unlock();
  yard::VesselState state;
  try {
    state = yard::state_of(store, glance, setting, at);
  } catch (...) {
    lock.lock();
    by_fill_[fill].at_work = false;
    worked_out_.notify_all();
    throw;
  }
  state.tracks.clear();  // a year of readings that nobody asks for
  lock.lock();
  Kept& kept = by_fill_[fill];
  kept.at_work = false;
  kept.state = state;
  kept.there = true;
  kept.fresh = kept.touched == touched;
  worked_out_.notify_all();
  return state;
}

std::vector<yard::VesselState> StateCache::states(const record::Store& store, const yard::Setting& setting,
                                                  record::Instant at) {
  {
    const std::lock_guard lock(mutex_);
    mark_touched_locked(store);
  }
  const auto until = std::chrono::steady_clock::now() + patience;
  std::vector<yard::VesselState> states;
  std::set<std::string> there;
  for (const record::VesselGlance& glance : record::yard(store)) {
    if (!glance.fill || glance.fill->filled_at > at) continue;
    there.insert(glance.fill->mark.thing);
    states.push_back(state_of(store, glance, setting, at, until));
  }
  const std::lock_guard lock(mutex_);
  std::erase_if(by_fill_, [&](const auto& one) { return !one.second.at_work && !there.contains(one.first); });
  return states;
}

}  // namespace stillheap::server
