#include "domain/limits/limits.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/quantity/both.hpp"

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

/// Both ends in SI.
struct Ends {
  double least = 0.0, most = 0.0;
};

/// Read from their texts once: an import asks for every row.
Ends ends_of(const Limit& limit) {
  static const std::array<Ends, table.size()> known = [] {
    std::array<Ends, table.size()> ends{};
    std::transform(table.begin(), table.end(), ends.begin(), [](const Limit* one) {
      return Ends{value_of(*one, one->least), value_of(*one, one->most)};
    });
    return ends;
  }();
  const auto found = std::find(table.begin(), table.end(), &limit);
  if (found != table.end()) return known.at(static_cast<std::size_t>(found - table.begin()));
  return {value_of(limit, limit.least), value_of(limit, limit.most)};
}

std::string shown(const Limit& limit, std::string_view text, UnitSystem system) {
  if (!limit.dimension || system == UnitSystem::metric) return std::string(text);
  return quantity::format(value_of(limit, text), *limit.dimension, system);
}

}  // namespace

std::span<const Limit* const> all() noexcept { return table; }

double least(const Limit& limit) { return ends_of(limit).least; }
double most(const Limit& limit) { return ends_of(limit).most; }

bool holds(const Limit& limit, double si) {
  constexpr double slack = 1e-12;  // so that "12 in" is not above "304.8 mm" by its last bit
  const auto [low, high] = ends_of(limit);
  const bool not_below = limit.least_itself ? si >= low - slack * std::abs(low) : si > low;
  return not_below && si <= high + slack * std::abs(high);
}

std::string allowed(const Limit& limit, UnitSystem system) {
  return (limit.least_itself ? "" : "above ") + shown(limit, limit.least, system) + " to " +
         shown(limit, limit.most, system);
}

std::string allowed_in_both(const Limit& limit) {
  return quantity::in_both([&](UnitSystem system) { return allowed(limit, system); });
}

std::string_view unit(const Limit& limit) noexcept {
  return limit.dimension ? quantity::si_unit(*limit.dimension) : "1";
}

}  // namespace stillheap::limits
