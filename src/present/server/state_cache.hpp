#pragma once
#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <string>
#include <vector>

#include "yard/record/touched.hpp"
#include "yard/state/state.hpp"

namespace stillheap::server {

/// What insight says of each fill in the yard, kept until something new is said of it. For many threads: while one
/// works out a state anew, the others wait for it a little, then take the last one.
class StateCache {
 public:
  static constexpr std::chrono::milliseconds patience{100};  ///< chosen: in all, for states that others work out
  static constexpr std::chrono::minutes longest{10};         ///< chosen: what turns on the clock turns on days

  /// States of all vessels that have a fill, by name, without their tracks. `setting` and `at` as states_of_yard has
  /// them; a state may be as old as `longest`.
  [[nodiscard]] std::vector<yard::VesselState> states(const record::Store& store, const yard::Setting& setting,
                                                      record::Instant at);

 private:
  struct Kept {
    yard::VesselState state;
    bool there = false;              ///< a state was worked out once
    bool fresh = false;              ///< nothing was said since
    bool at_work = false;            ///< somebody works it out
    unsigned long long touched = 0;  ///< how often something new was said
  };
  void mark_touched_locked(const record::Store& store);
  [[nodiscard]] yard::VesselState state_of(const record::Store& store, const record::VesselGlance& glance,
                                           const yard::Setting& setting, record::Instant at,
                                           std::chrono::steady_clock::time_point until);

  std::mutex mutex_;
  std::condition_variable worked_out_;
  record::Waterline seen_;
  std::map<std::string, Kept> by_fill_;
};

}  // namespace stillheap::server
