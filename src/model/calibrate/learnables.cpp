#include "model/calibrate/learnables.hpp"

#include <array>
#include <cmath>

#include "model/calibrate/learn.hpp"
#include "model/forecast/central.hpp"

namespace stillheap::calibrate {
namespace {

using forecast::Member;
using forecast::Request;
using physics::ParameterRow;
using physics::Parameters;

using forecast::density_deviation;
using forecast::moisture_deviation;
using forecast::pool_deviation;

/// Every constant of the model that the heat turns on; salt rides along without any.
bool is_learned(const ParameterRow& row) { return row.member != &Parameters::salt_per_conductivity; }

double read_parameter(const Parameters& from, const Parameters& central, const ParameterRow& row) {
  const double middle = central.*row.member;
  const double value = from.*row.member;
  return (row.spread == physics::Spread::lognormal ? std::log(value / middle) : value - middle) / row.deviation;
}

double dry_kg_m3(const material::Blend& blend) { return blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet); }

double read_pool(const material::Blend& blend, const material::Blend& planned, std::size_t pool) {
  const double middle = planned.pool_dry.at(pool);
  return middle > 0.0 ? std::log(blend.pool_dry.at(pool) / middle) / pool_deviation : 0.0;
}

constexpr std::array blend_values{
    Learnable{"dry density as filled", "factor, 8 % a deviation"},
    Learnable{"moisture as filled", "wet basis, 3 % a deviation"},
    Learnable{"quickly decaying solids", "factor, 20 % a deviation"},
    Learnable{"solids of middling decay", "factor, 20 % a deviation"},
    Learnable{"slowly decaying solids", "factor, 20 % a deviation"},
};

}  // namespace

std::vector<Learnable> learnables() {
  std::vector<Learnable> list(blend_values.begin(), blend_values.end());
  for (const ParameterRow& row : physics::parameter_rows()) {
    if (is_learned(row)) list.push_back({row.name, row.unit});
  }
  return list;
}

std::vector<double> read_values(const Member& member, const Request& request) {
  const material::Blend& blend = member.request.blend;
  const material::Blend& planned = request.blend;
  std::vector<double> values = {std::log(dry_kg_m3(blend) / dry_kg_m3(planned)) / density_deviation,
                                (blend.moisture_wet - planned.moisture_wet) / moisture_deviation};
  for (std::size_t pool = 0; pool < blend.pool_dry.size(); ++pool) values.push_back(read_pool(blend, planned, pool));
  const Parameters central = forecast::material_parameters(planned);
  for (const ParameterRow& row : physics::parameter_rows()) {
    if (is_learned(row)) values.push_back(read_parameter(member.parameters, central, row));
  }
  return values;
}

std::vector<double> deviations_of(const std::vector<double>& values) {
  std::vector<double> deviations(values.begin(), values.begin() + forecast::input_parameters);
  std::size_t next = forecast::input_parameters;
  for (const ParameterRow& row : physics::parameter_rows())
    deviations.push_back(is_learned(row) ? values.at(next++) : 0.0);
  return deviations;
}

}  // namespace stillheap::calibrate
