#pragma once
#include <string>

#include "forecast/heap.hpp"
#include "forecast/ledger.hpp"
#include "forecast/scene.hpp"
#include "forecast/steps.hpp"

namespace stillheap::forecast {

/// How far time may be cut.
struct StepRule {
  double least_s = 1.0;
  double most_s = 3600.0;
  double error_k = 0.25;           ///< wanted error of a step, mass-weighted root mean square
  double heat_tolerance_k = 2e-2;  ///< see Workspace
};
[[nodiscard]] StepRule step_rule(Grid grid) noexcept;

/// Carries a heap through time: adaptive backward Euler. Owns the state; allocates on construction only.
class Stepper {
 public:
  Stepper(const Heap& heap, const StepRule& rule);

  /// Takes one step of at most `most_s`. Throws RunError with the physical reason when no step of the least
  /// length can be taken.
  void step(double most_s);

  [[nodiscard]] const State& state() const noexcept { return state_; }
  [[nodiscard]] const Scene& scene() const noexcept { return scene_; }
  [[nodiscard]] const Ledger& ledger() const noexcept { return ledger_; }
  [[nodiscard]] int steps() const noexcept { return steps_; }
  [[nodiscard]] double last_step_s() const noexcept { return last_s_; }
  [[nodiscard]] double sprinkle_kg_s() const noexcept { return sprinkle_kg_s_; }  ///< full vessel

 private:
  [[nodiscard]] bool try_step(double dt_s);
  [[nodiscard]] double error_k(double dt_s) const noexcept;
  void plan_sprinkling(double dt_s);

  const Heap& heap_;
  StepRule rule_;
  State state_, before_;
  Scene scene_;
  Ledger ledger_, ledger_before_;
  Workspace work_;
  std::vector<double> trend_k_s_;  ///< last step's rate of temperature, for the error estimate
  double next_s_ = 60.0;
  double last_s_ = 0.0;
  double sprinkle_kg_s_ = 0.0;
  double loss_kg_s_ = 0.0;  ///< smoothed net loss of water, full vessel
  int steps_ = 0;
};

/// Weather at a time after filling.
[[nodiscard]] weather::Hour weather_at(const Request& request, double time_s) noexcept;

/// Calendar month (0..11) of a time after filling, in a year of 365 days.
[[nodiscard]] int month_at(const Request& request, double time_s) noexcept;

}  // namespace stillheap::forecast
