#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "domain/rules/self_heating.hpp"
#include "model/calibrate/observation.hpp"
#include "model/forecast/ensemble.hpp"
#include "model/forecast/result.hpp"

/// The forecast of one vessel learns from what was read off that vessel: its core, moisture and oxygen.
namespace stillheap::calibrate {

/// What is learned, by name: the blend as filled and every constant of the model that the heat turns on, each counted
/// in standard deviations of its prior, the spread that the ensemble of the forecast draws from.
struct Learnable {
  std::string_view name;
  std::string_view what;
};
[[nodiscard]] std::vector<Learnable> learnables();

struct LearnOptions {
  int members = 256;  ///< runs before learning; chosen: a minute or two, and 600 did no better on twins
  double deviation_k = usual_deviation_k;  ///< of a daily core reading that does not say its own
  int least_days = 10;                     ///< fewer days read teach too little; chosen
  double least_span_days = 10.0;           ///< from the first to the last; chosen
  double last_day = 1e9;                   ///< readings after it are not learned from
  std::uint64_t seed = 1;
  /// What other heaps taught. Other draws than the forecast's own are for a heap that must not know what it taught.
  std::span<const forecast::PriorDraw> heaps = forecast::prior_draws();
};

/// Told the share done, 0 to 1, of the call it is given to; false asks it to stop.
using Progress = std::function<bool(double share)>;

/// Core and hottest place from day to day, degC: one row a day from 0 to the forecast's last, as `forecast::heat_days`
/// takes them from a run.
using Course = std::vector<rules::HeatDay>;

/// The forecast's ensemble before it has learned: members and their runs to the end, on the draft grid with daily means
/// of the weather, as the forecast's own band is made.
struct Prior {
  forecast::Request request;
  std::vector<forecast::Member> members;
  std::vector<Course> courses;                               ///< one a member
  std::vector<std::vector<forecast::HistoryRow>> histories;  ///< one a member, a row a day
  Course twin;    ///< without heat, forecast/cold_twin.hpp; shared by all members
  Course middle;  ///< of the forecast's own middle line; empty when its run stopped early
};

/// Draws and runs the ensemble. Members whose run stopped early are left out. The same prior serves many vessels of
/// one design, blend and day.
/// Throws RunError when progress asks to stop.
[[nodiscard]] Prior draw_prior(const forecast::Request& request, const LearnOptions& options = {},
                               const Progress& progress = {});

/// What the ensemble says of the readings and of the future.
struct Outlook {
  double misfit_k = 0.0;  ///< root mean square of reading minus middle of the band
  /// End of self-heating of the middle line with its band, by the functions that give the forecast's own summary
  /// (forecast/band.hpp); none: not within the forecast, or it never heated.
  std::optional<forecast::Banded> cool_day;
  bool heated = true;                    ///< the middle line
  double cool_share_of_members = 0.0;    ///< whose self-heating ends within the forecast
  double never_warm_share = 0.0;         ///< of the members: never heated
  std::vector<forecast::Banded> core_c;  ///< one a day of the forecast
};
/// `line` empty: courses mixed from runs have no middle line, and each day's medians stand for it.
[[nodiscard]] Outlook outlook_of(const Course& line, const std::vector<Course>& courses,
                                 std::span<const Observation> readings, const Course& twin);

struct LearnedValue {
  std::string name;
  std::string what;
  double mean = 0.0;  ///< in prior standard deviations; the prior itself is 0 with deviation 1
  double deviation = 1.0;
};

struct Learned {
  int readings = 0;      ///< days of the core
  int observations = 0;  ///< all that was given, with those of moisture and oxygen
  int left_out = 0;      ///< of these: moisture and oxygen that no run comes near, of an odd place or wrong
  bool follows = false;  ///< some run lies as near the readings as runs lie to one another, and the misfit after is at
                         ///< most 1.5 deviations (chosen): else what was learned is not to be used
  Outlook before, after;
  std::vector<LearnedValue> values;
  std::vector<Course> courses;  ///< after; mixed from runs, held inside what any run reached on that day
  double effective = 0.0;       ///< runs that the readings leave in effect
  forecast::OwnReadings own;    ///< for a forecast that is to follow them, `most_draws` or fewer; none when it does not
};

inline constexpr std::size_t most_draws = 64;  ///< chosen: as many members as the page's forecast runs

/// Days of the core among the readings.
[[nodiscard]] int core_days(std::span<const Observation> readings);

/// Why the readings (in order of time) teach too little of the core; nothing when they suffice.
[[nodiscard]] std::optional<std::string> too_little(std::span<const Observation> readings,
                                                    const LearnOptions& options = {});

/// Learns, by one analysis of the prior's runs (ensemble_smoother.hpp) in which the core's course and the learned
/// values are the state; takes no run, a moment of time. Readings in order of time. Same readings, same answer. Throws
/// InputError when the readings teach too little or lie outside the forecast, or fewer than three members ran.
[[nodiscard]] Learned learn(const Prior& prior, std::span<const Observation> readings,
                            const LearnOptions& options = {});

/// All of it: draws the prior and learns; where the model follows the heap, learns the values again in parts, each from
/// runs of its own, so that a forecast that starts from them follows too, and runs that forecast. Then `after`,
/// `values` and `courses` are those of runs, no longer mixed, and `own` is for all forecasts of this heap. A middle
/// line that still misses the readings by more than `follows` allows leaves `own` without draws. Throws as the two
/// above.
[[nodiscard]] Learned teach(const forecast::Request& request, std::span<const Observation> readings,
                            const LearnOptions& options = {}, const Progress& progress = {});
/// The same from a prior that is there already.
[[nodiscard]] Learned teach(const Prior& prior, std::span<const Observation> readings, const LearnOptions& options = {},
                            const Progress& progress = {});

}  // namespace stillheap::calibrate
