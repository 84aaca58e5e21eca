#include "yard/insight/track.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::insight {
namespace {

double median_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

}  // namespace

Phrase name_of(const Spot& spot) {
  Phrase phrase;
  if (!spot.name.empty()) phrase.emplace_back(spot.name);
  const auto add = [&](const std::optional<double>& length_m, const char* tail) {
    if (!length_m) return;
    if (!phrase.empty()) phrase.emplace_back(", ");
    phrase.push_back(length(*length_m));
    phrase.emplace_back(tail);
  };
  add(spot.depth_m, " deep");
  add(spot.height_m, " above the base");
  if (spot.radius_m && *spot.radius_m == 0.0) {
    phrase.emplace_back(phrase.empty() ? "in the middle" : ", in the middle");
  } else {
    add(spot.radius_m, " from the middle");
  }
  if (phrase.empty()) phrase.emplace_back("a place not noted");
  return phrase;
}

rules::History history_of(const Track& track) {
  rules::History history;
  history.reserve(track.samples.size());
  for (const Sample& sample : track.samples) history.push_back({sample.time_s, sample.value});
  return history;
}

std::vector<DayValue> daily_medians(const Track& track, double until_s) {
  std::vector<DayValue> days;
  std::vector<double> values;
  for (std::size_t i = 0; i < track.samples.size() && track.samples[i].time_s <= until_s; ++i) {
    const Sample& sample = track.samples[i];
    const int day = static_cast<int>(std::floor(sample.time_s / constant::seconds_per_day));
    if (days.empty() || days.back().day != day) {
      days.push_back({day, 0.0, 0.0});
      values.clear();
    }
    values.push_back(sample.value);
    days.back().time_s = sample.time_s;
    const bool last_of_day = i + 1 == track.samples.size() || track.samples[i + 1].time_s > until_s ||
                             std::floor(track.samples[i + 1].time_s / constant::seconds_per_day) > day;
    if (last_of_day) days.back().median = median_of(values);
  }
  return days;
}

std::optional<Sample> last_fresh(const Track& track, double now_s, double fresh_s) {
  const auto later = std::upper_bound(track.samples.begin(), track.samples.end(), now_s,
                                      [](double time_s, const Sample& sample) { return time_s < sample.time_s; });
  if (later == track.samples.begin()) return std::nullopt;
  const Sample& last = *(later - 1);
  if (now_s - last.time_s > fresh_s) return std::nullopt;
  return last;
}

}  // namespace stillheap::insight
