#include "model/calibrate/held_against.hpp"

#include <algorithm>
#include <cmath>

namespace stillheap::calibrate {
namespace {

using forecast::HistoryRow;

constexpr double outlier_deviations = 3.0;  // chosen

double deviation_of(const Observation& one, double core_deviation_k) {
  if (one.deviation) return *one.deviation;
  switch (one.what) {
    case Sensed::core_temperature:
      break;
    case Sensed::moisture:
      return usual_moisture_deviation;
    case Sensed::oxygen:
      return usual_oxygen_deviation;
  }
  return core_deviation_k;
}

double HistoryRow::*column_of(Sensed what) {
  switch (what) {
    case Sensed::core_temperature:
      break;
    case Sensed::moisture:
      return &HistoryRow::mean_moisture_wet;
    case Sensed::oxygen:
      return &HistoryRow::mean_oxygen;
  }
  return &HistoryRow::core_c;
}

/// What a run says where something was read, between its rows.
double predicted(const History& history, const Observation& one) {
  double HistoryRow::*column = column_of(one.what);
  const auto after = std::lower_bound(history.begin(), history.end(), one.day,
                                      [](const HistoryRow& row, double day) { return row.day < day; });
  if (after == history.begin()) return history.front().*column;
  if (after == history.end()) return history.back().*column;
  const HistoryRow& before = *(after - 1);
  const double part = (one.day - before.day) / (after->day - before.day);
  return before.*column + part * ((*after).*column - before.*column);
}

}  // namespace

std::vector<Observation> without_outliers(const std::vector<Observation>& readings,
                                          const std::vector<History>& histories, double core_deviation_k) {
  std::vector<Observation> those;
  for (const Observation& one : readings) {
    const auto is_near = [&](const History& history) {
      return std::abs(predicted(history, one) - one.value) <= outlier_deviations * deviation_of(one, core_deviation_k);
    };
    if (is_core(one) || std::any_of(histories.begin(), histories.end(), is_near)) those.push_back(one);
  }
  return those;
}

Observed observed_of(const std::vector<Observation>& readings, double core_deviation_k) {
  const auto together = [&](const Observation& one) {
    if (is_core(one) || one.deviation) return 1.0;
    return static_cast<double>(std::count_if(readings.begin(), readings.end(), [&](const Observation& other) {
      return other.what == one.what && !other.deviation;
    }));
  };
  Observed observed;
  for (const Observation& one : readings) {
    observed.values.push_back(one.value);
    observed.deviations.push_back(deviation_of(one, core_deviation_k) * std::sqrt(together(one)));
  }
  return observed;
}

Vectors predictions_of(const std::vector<History>& histories, const std::vector<Observation>& readings) {
  Vectors predictions;
  for (const History& history : histories) {
    std::vector<double>& one = predictions.emplace_back();
    for (const Observation& reading : readings) one.push_back(predicted(history, reading));
  }
  return predictions;
}

}  // namespace stillheap::calibrate
