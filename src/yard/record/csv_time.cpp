#include "yard/record/csv_time.hpp"

#include <algorithm>

namespace stillheap::record {

std::optional<Instant> RowClock::read(const std::string& text, const std::string& probe, std::string& why) {
  const std::optional<ReadTime> read = read_time(text, mapping_.pattern);
  if (!read) {
    why =
        mapping_.pattern == "iso" ? "is no time as 2026-05-03 14:05" : "is no time by the pattern " + mapping_.pattern;
    return std::nullopt;
  }
  Instant at{};
  if (read->offset) {
    at = Instant{read->wall.time_since_epoch() - *read->offset};
  } else {
    const std::vector<Instant> candidates = instants_of(read->wall, mapping_.zone);
    if (candidates.empty()) {
      why = "does not exist in " + mapping_.zone +
            ": the clocks jumped over that hour; is the logger set to another zone?";
      return std::nullopt;
    }
    at = candidates.front();
    // In the hour that comes twice: when this probe, or a later row, has been there already, it is the second time.
    const auto seen = last_.find(probe);
    const bool passed = (latest_ && *latest_ > at) || (seen != last_.end() && seen->second >= at);
    if (candidates.size() > 1 && passed) {
      at = candidates.back();
      ++second_passes_;
    }
  }
  last_[probe] = at;
  latest_ = latest_ ? std::max(*latest_, at) : at;
  return at;
}

}  // namespace stillheap::record
