#include "domain/limits/limits.hpp"

#include <array>
#include <cmath>

namespace stillheap::limits {
namespace {

constexpr std::array<const Limit*, 26> table{
    &diameter,      &side,          &height,      &fill_height,     &channel_diameter,   &channels,
    &ring_radius,   &channel_place, &grid_lines,  &soaked_moisture, &carbon_to_nitrogen, &water_a_day,
    &forecast_days, &members,       &picture_day, &probe_depth,     &probe_height,       &probe_radius,
    &probe_angle,   &fill_volume,   &lot_mass,    &event_volume,    &event_mass,         &event_duration,
    &spread_area,   &year};

double value_of(const Limit& limit, std::string_view text) {
  return limit.dimension ? quantity::parse(text, *limit.dimension) : std::stod(std::string(text));
}

std::string shown(const Limit& limit, std::string_view text, UnitSystem system) {
  if (!limit.dimension || system == UnitSystem::metric) return std::string(text);
  return quantity::format(value_of(limit, text), *limit.dimension, system);
}

}  // namespace

std::span<const Limit* const> all() noexcept { return table; }

double least(const Limit& limit) { return value_of(limit, limit.least); }
double most(const Limit& limit) { return value_of(limit, limit.most); }

bool holds(const Limit& limit, double si) {
  constexpr double slack = 1e-12;  // so that "12 in" is not above "304.8 mm" by its last bit
  const double low = least(limit);
  const double high = most(limit);
  const bool not_below = limit.least_itself ? si >= low - slack * std::abs(low) : si > low;
  return not_below && si <= high + slack * std::abs(high);
}

std::string allowed(const Limit& limit, UnitSystem system) {
  return (limit.least_itself ? "" : "above ") + shown(limit, limit.least, system) + " to " +
         shown(limit, limit.most, system);
}

std::string_view unit(const Limit& limit) noexcept {
  return limit.dimension ? quantity::si_unit(*limit.dimension) : "1";
}

}  // namespace stillheap::limits
