#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/ensemble.hpp"
#include "forecast/result.hpp"

/// The forecast of one vessel learns from that vessel's own core temperatures.
namespace stillheap::calibrate {

/// What is learned, by name: the blend as filled and every constant of the model that the heat turns on, each counted
/// in standard deviations of its prior, the spread that the ensemble of the forecast draws from.
struct Learnable {
  std::string_view name;
  std::string_view what;
};
[[nodiscard]] std::vector<Learnable> learnables();

/// Core temperature on a day after filling.
struct CoreReading {
  double day = 0.0;
  double celsius = 0.0;
};

struct LearnOptions {
  int members = 48;               ///< chosen
  int times = 4;                  ///< assimilations, as in most examples of the source
  double deviation_k = 2.0;       ///< of one daily core reading against the model's core: probe and place; chosen
  int least_days = 10;            ///< fewer days read teach too little; chosen
  double least_span_days = 10.0;  ///< from the first to the last; chosen
  double last_day = 1e9;          ///< readings after it are not learned from
  std::uint64_t seed = 1;
};

/// Told the share done, 0 to 1, of the call it is given to; false asks it to stop.
using Progress = std::function<bool(double share)>;

/// The forecast's ensemble before it has learned: members and their runs to the end, on the draft grid.
struct Prior {
  forecast::Request request;
  std::vector<forecast::Member> members;
  std::vector<forecast::Track> tracks;  ///< one a member
};

/// Draws and runs the ensemble. Members whose run stopped early are left out. The same prior serves many vessels of
/// one design, blend and day.
/// Throws RunError when progress asks to stop.
[[nodiscard]] Prior draw_prior(const forecast::Request& request, const LearnOptions& options = {},
                               const Progress& progress = {});

/// What the ensemble says of the readings and of the future.
struct Outlook {
  double misfit_k = 0.0;      ///< root mean square of reading minus middle of the band
  forecast::Banded cool_day;  ///< core below 26.7 degC for good; the forecast's length stands for "not within"
  double cool_share_of_members = 0.0;
  std::vector<forecast::Banded> core_c;  ///< one a day of the forecast
};
[[nodiscard]] Outlook outlook_of(const std::vector<forecast::Track>& tracks, int days,
                                 std::span<const CoreReading> readings);

struct LearnedValue {
  std::string_view name;
  std::string_view what;
  double mean = 0.0;  ///< in prior standard deviations; the prior itself is 0 with deviation 1
  double deviation = 1.0;
};

struct Learned {
  int readings = 0;
  bool follows = false;  ///< the misfit after is at most 1.5 deviations (chosen): else the model cannot follow them and
                         ///< what was learned is not to be used
  Outlook before, after;
  std::vector<LearnedValue> values;
  std::vector<forecast::Member> members;
  std::vector<forecast::Track> tracks;  ///< of the members that ran to their end
};

/// Why the readings (in order of time) teach too little; nothing when they suffice.
[[nodiscard]] std::optional<std::string> too_little(std::span<const CoreReading> readings,
                                                    const LearnOptions& options = {});

/// Learns. Readings in order of time. Same readings, same answer, on any number of threads. Throws InputError when the
/// readings teach too little or lie outside the forecast; RunError when the runs fail or progress asks to stop.
[[nodiscard]] Learned learn(const Prior& prior, std::span<const CoreReading> readings, const LearnOptions& options = {},
                            const Progress& progress = {});

}  // namespace stillheap::calibrate
