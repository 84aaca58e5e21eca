#pragma once
#include <array>
#include <vector>

#include "model/forecast/run_history.hpp"

namespace stillheap::forecast {

/// Clocks above 55 degC, one value a cell.
struct HotClock {
  std::vector<double> total_s, in_a_row_s, longest_s;
};

/// Sums by calendar month in the solved sector's amounts, turned into means at the end.
struct Months {
  std::array<double, 12> span_s{}, evaporated_kg{}, drained_kg{}, salt_kg{};
};

/// Where a run stands between two steps: all that is needed to go on bit for bit, beside heap, rule and wish.
struct RunState {
  StepperMemory stepper;
  RunHistory track;  ///< so far; what only an end can tell is still empty
  HotClock clock;
  Months months;
  Balances at_row;  ///< as it stood at the last row of the history
  double row_s = 0.0, next_row_s = 0.0;
  int next_snapshot = 0, next_frame = 0;
};

/// Takes one heap from filling to its end, step by step, and notes what happens. Heap must outlive it.
class Runner {
 public:
  Runner(const Heap& heap, const StepRule& rule, const TrackWish& wish);
  /// Goes on where another walker of the same heap, rule and wish stood.
  Runner(const Heap& heap, const StepRule& rule, const TrackWish& wish, RunState begun);

  /// One step. Where no step can be taken the walk ends and its track says why.
  /// Throws RunError when a balance is off by more than 1e-6.
  void step();

  [[nodiscard]] bool ended() const noexcept;
  [[nodiscard]] double share() const noexcept;  ///< of the time, 0..1
  [[nodiscard]] const State& state() const noexcept { return stepper_.state(); }
  [[nodiscard]] RunState walk() const;
  [[nodiscard]] RunHistory track() const;  ///< of all steps so far

 private:
  [[nodiscard]] double end_s() const noexcept;
  [[nodiscard]] double next_stop_s() const noexcept;
  [[nodiscard]] bool wants_snapshot() const noexcept;
  void keep_fields();
  void note_step(double start_s, const Balances& before);

  const Heap& heap_;
  StepRule rule_;
  TrackWish wish_;
  std::vector<int> core_;
  std::vector<double> frame_days_;
  Stepper stepper_;
  RunState walk_;  ///< its stepper's memory is empty: the stepper has it
};

}  // namespace stillheap::forecast
