#include "calibrate/learnables.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "calibrate/learn.hpp"

namespace stillheap::calibrate {
namespace {

using forecast::Member;
using forecast::Request;
using physics::ParameterRow;
using physics::Parameters;

// The spreads with which forecast::draw_members draws the blend.
constexpr double moisture_deviation = 0.03;
constexpr double density_deviation = 0.08;
constexpr double pool_deviation = 0.20;

/// Every constant of the model that the heat turns on; salt rides along without any.
bool is_learned(const ParameterRow& row) { return row.member != &Parameters::salt_per_conductivity; }

double read_parameter(const Parameters& from, const ParameterRow& row) {
  const double middle = Parameters{}.*row.member;
  const double value = from.*row.member;
  return (row.spread == physics::Spread::lognormal ? std::log(value / middle) : value - middle) / row.deviation;
}

void write_parameter(Parameters& to, const ParameterRow& row, double value) {
  const double middle = Parameters{}.*row.member;
  to.*row.member = row.spread == physics::Spread::lognormal ? middle * std::exp(row.deviation * value)
                                                            : middle + row.deviation * value;
}

double dry_kg_m3(const material::Blend& blend) { return blend.bulk_density_kg_m3 * (1.0 - blend.moisture_wet); }

double read_pool(const material::Blend& blend, const material::Blend& planned, std::size_t pool) {
  const double middle = planned.pool_dry.at(pool);
  return middle > 0.0 ? std::log(blend.pool_dry.at(pool) / middle) / pool_deviation : 0.0;
}

/// Pools and ash cannot be more than all of the dry matter; the same bound as in forecast::draw_members.
void bound_pools(material::Blend& blend) {
  double sum = 0.0;
  for (const double pool : blend.pool_dry) sum += pool;
  const double most = 0.98 * (1.0 - blend.ash_dry);
  if (sum <= most) return;
  for (double& pool : blend.pool_dry) pool *= most / sum;
}

constexpr std::array blend_values{
    Learnable{"dry density as filled", "factor, 8 % a deviation"},
    Learnable{"moisture as filled", "wet basis, 3 % a deviation"},
    Learnable{"quickly decaying solids", "factor, 20 % a deviation"},
    Learnable{"solids of middling decay", "factor, 20 % a deviation"},
    Learnable{"slowly decaying solids", "factor, 20 % a deviation"},
};
constexpr std::size_t first_pool = 2;

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
  for (const ParameterRow& row : physics::parameter_rows()) {
    if (is_learned(row)) values.push_back(read_parameter(member.parameters, row));
  }
  return values;
}

void write_values(Member& member, const Request& request, const std::vector<double>& values) {
  material::Blend& blend = member.request.blend;
  const double dry = dry_kg_m3(request.blend) * std::exp(density_deviation * values.at(0));
  blend.moisture_wet = std::clamp(request.blend.moisture_wet + moisture_deviation * values.at(1), 0.05, 0.85);
  blend.bulk_density_kg_m3 = dry / (1.0 - blend.moisture_wet);
  std::size_t at = first_pool;
  for (std::size_t pool = 0; pool < blend.pool_dry.size(); ++pool) {
    blend.pool_dry.at(pool) = request.blend.pool_dry.at(pool) * std::exp(pool_deviation * values.at(at++));
  }
  bound_pools(blend);
  for (const ParameterRow& row : physics::parameter_rows()) {
    if (is_learned(row)) write_parameter(member.parameters, row, values.at(at++));
  }
}

}  // namespace stillheap::calibrate
