#pragma once
#include <string>

#include "model/forecast/balances.hpp"
#include "model/forecast/coefficients.hpp"
#include "model/forecast/heap.hpp"
#include "model/forecast/steps.hpp"
#include "model/forecast/totals.hpp"

namespace stillheap::forecast {

/// How far time may be cut.
struct StepRule {
  double least_s = 1.0;
  double most_s = 3600.0;
  double error_k = 0.25;           ///< wanted error of a step, mass-weighted root mean square
  double heat_tolerance_k = 2e-2;  ///< see Workspace
};
[[nodiscard]] StepRule step_rule(Grid grid) noexcept;

/// All that a stepper carries from one step to the next. A stepper made from a copy takes the same steps bit for bit,
/// which checkpoints build on: what a step leaves for a later one belongs in here and nowhere else.
struct StepperMemory {
  State state;
  Totals first;  ///< at filling; its oxygen moves along with what the nodes' gas weighs, see Stepper::measure_stored
  Balances balances;
  std::vector<double> trend_k_s;  ///< last step's rate of temperature, for the error estimate
  double next_s = 60.0;           ///< wanted length of the next step
  double last_s = 0.0;
  double sprinkle_kg_s = 0.0;  ///< of automatic sprinkling, full vessel
  double loss_kg_s = 0.0;      ///< smoothed net loss of water, full vessel
  int steps = 0;
};

/// Carries a heap through time: adaptive backward Euler. Owns the state; allocates on construction only.
class Stepper {
 public:
  Stepper(const Heap& heap, const StepRule& rule);
  /// Goes on from where another stepper of the same heap and rule stood.
  Stepper(const Heap& heap, const StepRule& rule, StepperMemory memory);

  /// Takes one step of at most `most_s`. Throws RunError with the physical reason when no step of the least
  /// length can be taken.
  void step(double most_s);

  [[nodiscard]] const StepperMemory& memory() const noexcept { return now_; }
  [[nodiscard]] const State& state() const noexcept { return now_.state; }
  [[nodiscard]] const Coefficients& coefficients() const noexcept { return scene_; }
  [[nodiscard]] const Balances& balances() const noexcept { return now_.balances; }
  [[nodiscard]] int steps() const noexcept { return now_.steps; }
  [[nodiscard]] double last_step_s() const noexcept { return now_.last_s; }
  [[nodiscard]] double sprinkle_kg_s() const noexcept { return now_.sprinkle_kg_s; }  ///< full vessel

 private:
  [[nodiscard]] bool try_step(double dt_s);
  [[nodiscard]] double error_k(double dt_s) const noexcept;
  void measure_stored() noexcept;
  void plan_sprinkling(double dt_s);

  const Heap& heap_;
  StepRule rule_;
  StepperMemory now_;
  State before_;
  Balances ledger_before_;
  Coefficients scene_;
  Workspace work_;
};

/// Water that sprinkling keeps up, per dry mass: as filled, and no more than stays without draining.
[[nodiscard]] double wanted_water_kg_kg(const Heap& heap) noexcept;

/// Weather at a time after filling.
[[nodiscard]] weather::Hour weather_at(const Request& request, double time_s) noexcept;

/// Calendar month (0..11) of a time after filling, in a year of 365 days.
[[nodiscard]] int month_at(const Request& request, double time_s) noexcept;

}  // namespace stillheap::forecast
