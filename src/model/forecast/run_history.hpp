#pragma once
#include <array>
#include <functional>
#include <optional>
#include <vector>

#include "model/forecast/diagnostics.hpp"
#include "model/forecast/result.hpp"
#include "model/forecast/stepper.hpp"

namespace stillheap::forecast {

/// What one run of one heap leaves behind: the history and the numbers of the summary, without bands.
struct RunHistory {
  std::vector<HistoryRow> history;
  std::vector<Snapshot> snapshots;
  std::vector<Snapshot> frames;  ///< of an animation
  double peak_c = -300.0, peak_day = 0.0;
  int peak_cell = 0;
  double lowest_oxygen = 1.0, lowest_oxygen_day = 0.0;
  int lowest_oxygen_cell = 0;
  double most_mass_below_5 = 0.0, days_any_below_5 = 0.0;
  double driest = 1.0, wettest = 0.0;
  double days_above_55 = 0.0;  ///< mean over mass
  double share_3_days = 0.0;
  // Against the twin, known once that has run.
  bool heated = false;
  bool heat_ended = false;
  double heat_end_day = 0.0;
  double degradable_left = 1.0;  ///< share of the pools
  double peak_uptake_g_kg_h = 0.0;
  double solids_lost = 0.0, height_lost = 0.0, finished_kg = 0.0, finished_m3 = 0.0, salt_ratio = 0.0;
  double moisture_end = 0.0;
  double first_salt_kg = 0.0;                                                 ///< full vessel
  std::array<double, 12> evaporated_kg_s{}, drained_kg_s{}, salt_out_kg_s{};  ///< full vessel
  Balances balances;                                                          ///< full vessel
  int steps = 0;
  std::optional<std::string> stopped;
};

/// Wanted of a track besides the numbers.
struct TrackWish {
  double history_every_s = 86400.0;
  bool snapshots = false;
  bool frames = false;
};

/// Runs one heap from filling to the end. `keep_on` is asked after each step with the share done.
[[nodiscard]] RunHistory follow(const Heap& heap, const StepRule& rule, const TrackWish& wish,
                                const std::function<bool(double)>& keep_on);

}  // namespace stillheap::forecast
