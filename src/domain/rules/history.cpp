#include "domain/rules/history.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/error.hpp"

namespace stillheap::rules {
namespace {

// The part of one straight segment that lies in the band, as shares 0..1 of its length; nothing when outside.
std::optional<Stretch> inside_share(double from_c, double to_c, double low_c, double high_c) {
  if (from_c == to_c) {
    if (from_c < low_c || from_c > high_c) return std::nullopt;
    return Stretch{0.0, 1.0};
  }
  const double at_low = (low_c - from_c) / (to_c - from_c);
  const double at_high = (high_c - from_c) / (to_c - from_c);
  const Stretch part{std::max(0.0, std::min(at_low, at_high)), std::min(1.0, std::max(at_low, at_high))};
  if (part.begin_s > part.end_s) return std::nullopt;
  return part;
}

void join(std::vector<Stretch>& stretches, const Stretch& next) {
  if (!stretches.empty() && stretches.back().end_s == next.begin_s) {
    stretches.back().end_s = next.end_s;
  } else {
    stretches.push_back(next);
  }
}

}  // namespace

void check_history(const History& history) {
  readings_visited += history.size();
  for (std::size_t i = 0; i < history.size(); ++i) {
    const bool finite = std::isfinite(history[i].time_s) && std::isfinite(history[i].celsius);
    if (finite && (i == 0 || history[i].time_s >= history[i - 1].time_s)) continue;
    throw InputError("temperature history, reading " + std::to_string(i + 1),
                     finite ? "is older than the reading before it" : "holds a number that is not finite",
                     "sort the readings by time and leave out gaps");
  }
}

std::vector<Stretch> stretches_within(const History& history, double low_c, double high_c) {
  check_history(history);
  readings_visited += history.size();
  std::vector<Stretch> stretches;
  for (std::size_t i = 1; i < history.size(); ++i) {
    const Reading& from = history[i - 1];
    const Reading& to = history[i];
    const double step_s = to.time_s - from.time_s;
    if (step_s > widest_gap_s) continue;
    const auto part = inside_share(from.celsius, to.celsius, low_c - rounding_k, high_c + rounding_k);
    if (!part) continue;
    // Ends are taken from the readings themselves so that neighbours join without rounding.
    const double begin_s = part->begin_s == 0.0 ? from.time_s : from.time_s + part->begin_s * step_s;
    const double end_s = part->end_s == 1.0 ? to.time_s : from.time_s + part->end_s * step_s;
    join(stretches, {begin_s, end_s});
  }
  return stretches;
}

std::optional<Stretch> longest_within(const History& history, double low_c, double high_c) {
  const auto all = stretches_within(history, low_c, high_c);
  const auto longest = std::max_element(all.begin(), all.end(),
                                        [](const Stretch& a, const Stretch& b) { return a.length_s() < b.length_s(); });
  if (longest == all.end()) return std::nullopt;
  return *longest;
}

}  // namespace stillheap::rules
