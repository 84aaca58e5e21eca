#pragma once
#include <optional>

/// What can be learned from: one number read off a heap, whatever the probe.
namespace stillheap::calibrate {

/// What a number is of, and what it is held against in a run.
enum class Sensed {
  core_temperature,  ///< degC; the core
  moisture,          ///< wet basis, 0..1; the mean of the heap
  oxygen             ///< by volume of the gas, 0..0.21; the mean of the heap
};

/// How far a number may be off the run that is the heap (one standard deviation): the probe, and for moisture and
/// oxygen mostly that one place is not the mean of the heap. All chosen: no source at hand reads one heap at many
/// places.
inline constexpr double usual_deviation_k = 2.0;
inline constexpr double usual_moisture_deviation = 0.06;  ///< a handful or a probe at some place
inline constexpr double usual_oxygen_deviation = 0.04;    ///< a lance at some place

struct Observation {
  double day = 0.0;  ///< after filling
  double value = 0.0;
  Sensed what = Sensed::core_temperature;
  std::optional<double> deviation{};  ///< nothing: the usual one of its kind
};

}  // namespace stillheap::calibrate
