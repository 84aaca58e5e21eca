#include "planning/plan/suggestion_text.hpp"

#include <cmath>
#include <vector>

namespace stillheap::plan {
namespace {

constexpr double middle_m = 1e-6;  // nearer than that a channel stands in the middle

std::string quoted(double si, Dimension dimension, UnitSystem units) {
  constexpr int digits = 4;
  const double shown = std::abs(si) < middle_m ? 0.0 : si;  // no "-0 mm" of a cosine
  return '"' + quantity::format(shown, dimension, units, digits) + '"';
}

std::string places_text(const std::vector<vessel::Channel>& channels, UnitSystem units) {
  std::string text;
  for (const vessel::Channel& channel : channels) {
    text += (text.empty() ? "[" : ", [") + quoted(channel.centre.x_m, Dimension::length, units) + ", " +
            quoted(channel.centre.y_m, Dimension::length, units) + ']';
  }
  return "at = [" + text + ']';
}

std::string ring_text(const vessel::Ring& ring, UnitSystem units) {
  return "count = " + std::to_string(ring.count) + ", radius = " + quoted(ring.radius_m, Dimension::length, units) +
         ", first_angle = " + quoted(ring.first_angle_rad, Dimension::angle, units);
}

}  // namespace

std::string suggestion_text(const vessel::Suggestion& suggestion, UnitSystem units) {
  if (suggestion.channels.empty()) return suggestion.words;
  std::string keys;
  std::vector<vessel::Channel> others = suggestion.channels;
  if (!suggestion.rings.empty()) {
    const vessel::Ring& outer = suggestion.rings.back();
    keys = ring_text(outer, units);
    std::erase_if(others, [&](const vessel::Channel& one) {
      return std::abs(std::hypot(one.centre.x_m, one.centre.y_m) - outer.radius_m) < middle_m;
    });
  }
  if (suggestion.centre) {
    keys += (keys.empty() ? "" : ", ") + std::string("centre = true");
    std::erase_if(others,
                  [](const vessel::Channel& one) { return std::hypot(one.centre.x_m, one.centre.y_m) < middle_m; });
  }
  if (!others.empty()) keys += (keys.empty() ? "" : ", ") + places_text(others, units);
  return suggestion.words + "; to type in under [vessel.channels]: " + keys;
}

}  // namespace stillheap::plan
