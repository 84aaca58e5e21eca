#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "domain/rules/history.hpp"
#include "yard/insight/phrase.hpp"

/// Readings as insight takes them: one track a probe position and kind of reading.
namespace stillheap::insight {

enum class Sensed { temperature, moisture, oxygen, carbon_dioxide };

/// Where a probe stands. Any part may be missing.
struct Spot {
  std::string name;                 ///< "core"
  std::optional<double> angle_rad;  ///< in plan, from east, counter-clockwise
  std::optional<double> radius_m;   ///< from the middle
  std::optional<double> depth_m;    ///< below the top of the heap
  std::optional<double> height_m;   ///< above its base
};

/// "core, 0.46 m deep"
[[nodiscard]] Phrase name_of(const Spot& spot);

struct Sample {
  double time_s = 0.0;  ///< since filling
  double value = 0.0;   ///< degC; kg/kg wet; m3/m3 of the gas
};

/// All readings of one kind at one place, in rising time.
struct Track {
  Sensed sensed = Sensed::temperature;
  Spot spot;
  std::vector<Sample> samples;
};

/// The samples as a temperature history for the hygiene rules. Nothing is smoothed or left out.
[[nodiscard]] rules::History history_of(const Track& track);

/// The track's samples up to now of one day in one number; days are 24 h, counted from filling.
struct DayValue {
  int day = 0;
  double time_s = 0.0;  ///< of the day's last sample
  double median = 0.0;
};

/// One value a day that was read, in rising order: a single wild sample among three or more does not show. Samples
/// after `until_s` are left out.
[[nodiscard]] std::vector<DayValue> daily_medians(const Track& track, double until_s);

/// The last sample not after `now_s` and no older than `fresh_s`.
[[nodiscard]] std::optional<Sample> last_fresh(const Track& track, double now_s, double fresh_s);

}  // namespace stillheap::insight
