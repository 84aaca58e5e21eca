#include "core/quantity/quantity.hpp"
#include "yard/record/entries.hpp"

namespace stillheap::record {

std::string words(const Place& place, UnitSystem system) {
  std::string text = place.name;
  const auto add = [&](const std::optional<double>& value, Dimension dimension, const char* what) {
    if (value) text += (text.empty() ? "" : ", ") + quantity::format(*value, dimension, system) + what;
  };
  add(place.depth_m, Dimension::length, " deep");
  add(place.height_m, Dimension::length, " high");
  add(place.radius_m, Dimension::length, " from the middle");
  add(place.angle_rad, Dimension::angle, " from east");
  return text.empty() ? "not noted" : text;
}

}  // namespace stillheap::record
