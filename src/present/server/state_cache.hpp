#pragma once
#include <chrono>
#include <map>
#include <mutex>
#include <string>
#include <vector>

#include "yard/record/touched.hpp"
#include "yard/state/state.hpp"

namespace stillheap::server {

/// What insight says of each fill in the yard, kept until something new is said of it. For many threads.
class StateCache {
 public:
  static constexpr std::chrono::minutes longest{10};  ///< chosen: what turns on the clock turns on days

  /// States of all vessels that have a fill, by name, without their tracks. `site` and `at` as states_of_yard has them;
  /// a state may be as old as `longest`.
  [[nodiscard]] std::vector<yard::VesselState> states(const record::Store& store, const site::Site& site,
                                                      record::Instant at);

 private:
  void forget_touched(const record::Store& store);

  std::mutex mutex_;
  record::Waterline seen_;
  std::map<std::string, yard::VesselState> by_fill_;
};

}  // namespace stillheap::server
