#include "model/forecast/central.hpp"

#include <cmath>

namespace stillheap::forecast {

physics::Parameters material_parameters(const material::Blend& blend) noexcept {
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

physics::Parameters central_parameters(const material::Blend& blend, std::span<const PriorDraw> draws) noexcept {
  return moved_by(material_parameters(blend), mean_shift(blend, draws));
}

physics::Parameters moved_by(physics::Parameters parameters, const Shift& shift) noexcept {
  for (std::size_t i = 0; i < shift.size(); ++i) {
    const physics::ParameterRow& row = physics::parameter_rows()[row_of_learned(i)];
    parameters.*row.member = shifted(row, parameters.*row.member, shift[i]);
  }
  return parameters;
}

double shifted(const physics::ParameterRow& row, double value, double deviations) noexcept {
  return row.spread == physics::Spread::lognormal ? value * std::exp(row.deviation * deviations)
                                                  : value + row.deviation * deviations;
}

}  // namespace stillheap::forecast
