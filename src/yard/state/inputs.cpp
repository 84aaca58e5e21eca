#include "yard/state/inputs.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "yard/insight/phase.hpp"

namespace stillheap::yard {
namespace {

std::optional<insight::Sensed> sensed(record::Measure measure) {
  switch (measure) {
    case record::Measure::temperature:
      return insight::Sensed::temperature;
    case record::Measure::moisture:
      return insight::Sensed::moisture;
    case record::Measure::oxygen:
      return insight::Sensed::oxygen;
    case record::Measure::carbon_dioxide:
      return insight::Sensed::carbon_dioxide;
    case record::Measure::conductivity:
    case record::Measure::acidity:
      return std::nullopt;  // of the drainage or of a sample; no rule of a reading turns on them
  }
  return std::nullopt;
}

constexpr double oxygen_of_air = 0.2095;  // by volume of dry air

insight::Spot spot_of(const record::Place& place) {
  return {place.name, place.angle_rad, place.radius_m, place.depth_m, place.height_m};
}

void add(std::vector<insight::LabValue>& values, std::span<const record::LabTest> tests, record::Instant filled_at,
         bool of_lot) {
  for (const record::LabTest& test : tests) {
    values.push_back(
        {test.key, test.value, test.unit, test.method, since_filling_s(test.sampled_at, filled_at), of_lot});
  }
}

}  // namespace

double since_filling_s(record::Instant at, record::Instant filled_at) noexcept {
  return static_cast<double>((at - filled_at).count());
}

std::vector<insight::Track> tracks_of(std::span<const record::Reading> readings, record::Instant filled_at) {
  std::vector<insight::Track> tracks;
  std::vector<const record::Place*> places;  // of each track
  for (const record::Reading& reading : readings) {
    const auto kind = sensed(reading.measure);
    const double time_s = since_filling_s(reading.at, filled_at);
    if (!kind || time_s < 0.0) continue;
    std::size_t i = 0;
    while (i < tracks.size() && !(tracks[i].sensed == *kind && *places[i] == reading.place)) ++i;
    if (i == tracks.size()) {
      tracks.push_back({*kind, spot_of(reading.place), {}});
      places.push_back(&reading.place);
    }
    tracks[i].samples.push_back({time_s, reading.value});
  }
  for (insight::Track& track : tracks) {
    std::stable_sort(track.samples.begin(), track.samples.end(),
                     [](const insight::Sample& a, const insight::Sample& b) { return a.time_s < b.time_s; });
  }
  return tracks;
}

std::vector<insight::Track> tracks_of(std::span<const record::SeriesRows> series, record::Instant filled_at) {
  std::vector<insight::Track> tracks;
  for (const record::SeriesRows& rows : series) {
    const auto kind = sensed(rows.measure);
    if (!kind) continue;
    insight::Track track{*kind, spot_of(rows.place), {}};
    track.samples.reserve(rows.at.size());
    for (std::size_t i = 0; i < rows.at.size(); ++i) {
      const double time_s = since_filling_s(rows.at[i], filled_at);
      if (time_s >= 0.0) track.samples.push_back({time_s, rows.value[i]});
    }
    if (!track.samples.empty()) tracks.push_back(std::move(track));
  }
  return tracks;
}

std::vector<CoreDay> core_days(const record::Store& store, const record::Fill& fill, record::Instant until) {
  const auto series = record::series_rows(store, fill.mark.thing, fill.filled_at, until);
  std::vector<CoreDay> days;
  const double now_s = since_filling_s(until, fill.filled_at);
  for (const insight::HeapDay& one : insight::heap_days(tracks_of(series, fill.filled_at), now_s)) {
    days.push_back({one.time_s / 86400.0, one.celsius});
  }
  return days;
}

std::vector<PlacesDay> moisture_and_oxygen_days(const record::Store& store, const record::Fill& fill,
                                                record::Instant until) {
  struct Sum {
    double time_s = 0.0, value = 0.0;
    int places = 0;
  };
  std::map<std::pair<int, insight::Sensed>, Sum> sums;
  const double now_s = since_filling_s(until, fill.filled_at);
  const auto series = record::series_rows(store, fill.mark.thing, fill.filled_at, until);
  for (const insight::Track& track : tracks_of(series, fill.filled_at)) {
    if (track.sensed == insight::Sensed::temperature) continue;
    for (const insight::DayValue& one : insight::daily_medians(track, now_s)) {
      Sum& sum = sums[{one.day, track.sensed}];
      sum.time_s = std::max(sum.time_s, one.time_s);
      sum.value += one.median;
      ++sum.places;
    }
  }
  std::vector<PlacesDay> days;
  for (const auto& [key, sum] : sums) {
    PlacesDay one{key.second, sum.time_s / 86400.0, sum.value / sum.places};
    if (one.sensed == insight::Sensed::carbon_dioxide) {
      if (sums.contains({key.first, insight::Sensed::oxygen})) continue;
      one = {insight::Sensed::oxygen, one.day, std::max(0.0, oxygen_of_air - one.value)};
    }
    days.push_back(one);
  }
  return days;
}

std::vector<insight::LabValue> lab_values(std::span<const record::LabTest> of_fill,
                                          std::span<const record::LabTest> of_lots, record::Instant filled_at) {
  std::vector<insight::LabValue> values;
  add(values, of_fill, filled_at, false);
  add(values, of_lots, filled_at, true);
  return values;
}

}  // namespace stillheap::yard
