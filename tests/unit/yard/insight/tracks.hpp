#pragma once
#include <functional>
#include <string>
#include <vector>

#include "core/base/constants.hpp"
#include "yard/insight/track.hpp"

/// Invented readings for the tests of insight.
namespace stillheap::insight::test {

inline constexpr double day_s = constant::seconds_per_day;

/// One reading a day at eight in the morning (a third of a day after filling), given as degC.
inline Track daily(const std::string& name, const std::vector<double>& values, int first_day = 0) {
  Track track;
  track.spot.name = name;
  for (std::size_t i = 0; i < values.size(); ++i) {
    track.samples.push_back({(static_cast<double>(i) + first_day + 1.0 / 3.0) * day_s, values[i]});
  }
  return track;
}

inline Track one(Sensed sensed, const std::string& name, double day, double value) {
  Track track;
  track.sensed = sensed;
  track.spot.name = name;
  track.samples.push_back({day * day_s, value});
  return track;
}

/// Straight lines between (day, degC) corners, read daily.
inline Track through(
    const std::string& name, const std::vector<std::pair<double, double>>& corners,
    const std::function<bool(int)>& is_read = [](int) { return true; }) {
  Track track;
  track.spot.name = name;
  for (std::size_t i = 1; i < corners.size(); ++i) {
    for (int day = static_cast<int>(corners[i - 1].first); day < static_cast<int>(corners[i].first); ++day) {
      if (!is_read(day)) continue;
      const double part = (day - corners[i - 1].first) / (corners[i].first - corners[i - 1].first);
      const double value = corners[i - 1].second + part * (corners[i].second - corners[i - 1].second);
      track.samples.push_back({(day + 1.0 / 3.0) * day_s, value});
    }
  }
  return track;
}

}  // namespace stillheap::insight::test
