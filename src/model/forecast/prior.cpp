#include "model/forecast/prior.hpp"

#include <cassert>
#include <cmath>

namespace stillheap::forecast {
namespace {

using material::Blend;
using material::Kind;
using physics::Parameters;

constexpr double variance_of_one_heap = 0.3;  // of the prior's; chosen, as the decision says
constexpr double rate_spread_of_wood =
    1.6;  // chosen: known to a factor of five either way; tools/condition/inputs.py too

/// Rates and temperatures belong to what makes the heat, the rest to all of the mass.
bool goes_by_uptake(double Parameters::*constant) {
  return constant == &Parameters::rate_factor || constant == &Parameters::temperature_most_c ||
         constant == &Parameters::moisture_half_wet || constant == &Parameters::oxygen_half_percent ||
         constant == &Parameters::cool_factor_10k;
}

const std::array<double, material::kind_count>& shares(const Blend& blend, std::size_t learned) {
  return goes_by_uptake(learned_constants[learned]) ? blend.kind_uptake : blend.kind_dry;
}

double prior_deviation(std::size_t learned, std::size_t kind) {
  const bool wood_rate = learned_constants[learned] == &Parameters::rate_factor && Kind{kind} == Kind::wood;
  return wood_rate ? rate_spread_of_wood : 1.0;
}

}  // namespace

Shift shift_of(const Blend& blend, const PriorDraw& draw) noexcept {
  Shift shift{};
  for (std::size_t i = 0; i < shift.size(); ++i)
    for (std::size_t k = 0; k < material::kind_count; ++k) shift[i] += shares(blend, i)[k] * draw[k][i];
  return shift;
}

Shift mean_shift(const Blend& blend, std::span<const PriorDraw> draws) noexcept {
  Shift mean{};
  for (const PriorDraw& draw : draws) {
    const Shift one = shift_of(blend, draw);
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += one[i] / static_cast<double>(draws.size());
  }
  return mean;
}

Shift deviation_of_one_heap(const Blend& blend) noexcept {
  Shift deviation{};
  for (std::size_t i = 0; i < deviation.size(); ++i) {
    double known = 0.0;
    for (std::size_t k = 0; k < material::kind_count; ++k) {
      known += shares(blend, i)[k];
      deviation[i] += shares(blend, i)[k] * prior_deviation(i, k) * std::sqrt(variance_of_one_heap);
    }
    if (known <= 0.0) deviation[i] = 1.0;
  }
  return deviation;
}

std::size_t row_of_learned(std::size_t learned) noexcept {
  const std::span<const physics::ParameterRow> rows = physics::parameter_rows();
  std::size_t at = 0;
  while (at < rows.size() && rows[at].member != learned_constants[learned]) ++at;
  assert(at < rows.size());
  return at;
}

}  // namespace stillheap::forecast
