#include "model/forecast/central.hpp"

namespace stillheap::forecast {

physics::Parameters central_parameters(const material::Blend& blend) noexcept {
  physics::Parameters parameters;
  const material::Habit& habit = blend.habit;
  if (!(habit.particle_size_m > 0.0)) return parameters;
  parameters.particle_size_m = habit.particle_size_m;
  parameters.particle_kg_m3 = habit.envelope_kg_m3;
  parameters.holding_capacity = habit.holding_dry;
  parameters.temperature_best_c = habit.best_c;
  parameters.temperature_most_c = habit.most_c;
  return parameters;
}

}  // namespace stillheap::forecast
