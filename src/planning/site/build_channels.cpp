#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"
#include "domain/limits/limits.hpp"
#include "domain/vessel/clash.hpp"
#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

/// The channels of a design and the key each of them comes from.
struct Pattern {
  std::vector<vessel::Channel> channels;
  std::vector<std::string_view> keys;
};

void append(Pattern& pattern, const std::vector<vessel::Channel>& channels, std::string_view key) {
  pattern.channels.insert(pattern.channels.end(), channels.begin(), channels.end());
  pattern.keys.insert(pattern.keys.end(), channels.size(), key);
}

double ring_radius_m(Reader& reader, const Section& section, double diameter_m) {
  if (!exactly_one(reader, section, "radius", "hoop")) return NAN;
  if (given(section, "radius")) return *maybe_amount(section, "radius");
  const double hoop_m = *maybe_amount(section, "hoop");
  if (hoop_m <= diameter_m) {
    refuse(reader, section, "hoop", "does not go around a pipe",
           "give more than the pipe's diameter, " + shown(reader, diameter_m, Dimension::length));
    return NAN;
  }
  return vessel::ring_radius_inside_hoop_m(hoop_m, diameter_m);
}

void add_ring(Reader& reader, const Section& section, double diameter_m, Pattern& pattern) {
  vessel::Ring ring;
  ring.count = whole(reader, section, "count");
  if (ring.count == 0) {
    for (const std::string_view key : {"radius", "hoop", "first_angle"}) {
      if (given(section, key) && value(section, "count").good) {
        refuse(reader, section, key, "has no ring to belong to", "give \"count\", how many stand on the ring");
      }
    }
    return;
  }
  ring.radius_m = ring_radius_m(reader, section, diameter_m);
  ring.first_angle_rad = amount(reader, section, "first_angle");
  if (std::isfinite(ring.radius_m)) {
    append(pattern, vessel::ring_channels(ring, diameter_m, false), given(section, "hoop") ? "hoop" : "radius");
  }
}

void add_grid(Reader& reader, const Section& section, double diameter_m, const vessel::Design& design,
              Pattern& pattern) {
  if (!given(section, "grid") || !value(section, "grid").good) return;
  if (design.footprint == vessel::Footprint::round) {
    refuse(reader, section, "grid", "does not fit a round vessel", "use a ring: \"count\" with \"radius\" or \"hoop\"");
    return;
  }
  const std::vector<double>& counts = numbers(reader, section, "grid");
  std::vector<vessel::Channel> channels;
  for (int row = 0; row < static_cast<int>(counts[1]); ++row) {
    for (int column = 0; column < static_cast<int>(counts[0]); ++column) {
      const double x_m = ((column + 0.5) / counts[0] - 0.5) * design.length_m;
      const double y_m = ((row + 0.5) / counts[1] - 0.5) * design.width_m;
      channels.push_back({{x_m, y_m}, diameter_m});
    }
  }
  append(pattern, channels, "grid");
}

void add_places(const Section& section, double diameter_m, Pattern& pattern) {
  const Value& places = value(section, "at");
  if (!places.given || !places.good) return;
  for (std::size_t i = 0; i + 1 < places.numbers.size(); i += 2) {
    append(pattern, {{{places.numbers[i], places.numbers[i + 1]}, diameter_m}}, "at");
  }
}

/// The largest ring that clears the wall.
double largest_radius_m(const vessel::Design& design, double diameter_m) {
  const double across_m =
      design.footprint == vessel::Footprint::round ? design.diameter_m : std::min(design.length_m, design.width_m);
  return vessel::largest_ring_radius_m(across_m, diameter_m);
}

/// Rounded down (or up) to what a tape shows, so that the number in the message really works.
std::string tape_text(const Reader& reader, double length_m, bool up) {
  const double step_m = reader.units == UnitSystem::us ? 0.0254 / 8.0 : 0.001;
  const double steps = length_m / step_m;
  return quantity::format_workshop((up ? std::ceil(steps - 1e-6) : std::floor(steps + 1e-6)) * step_m, reader.units);
}

/// What to write instead: a radius that clears, where there is one.
std::string mend_of(const Reader& reader, const vessel::Design& design, const vessel::Clash& clash,
                    std::string_view key, const Pattern& pattern) {
  const double diameter_m = pattern.channels[clash.channel].diameter_m;
  const bool on_ring = key == "radius" || key == "hoop";
  if (!on_ring)
    return key == "grid" ? "use a coarser grid or thinner channels" : "move it, make it thinner or take it out";
  const double added_m = key == "hoop" ? diameter_m : 0.0;  // a hoop goes around the pipes
  const double factor = key == "hoop" ? 2.0 : 1.0;
  const double largest_m = largest_radius_m(design, diameter_m);
  if (clash.kind == vessel::ClashKind::channel_and_wall) {
    if (largest_m <= 0.0) return "no ring of such channels fits: make them thinner";
    return "use at most \"" + tape_text(reader, factor * largest_m + added_m, false) + '"';
  }
  const auto on_this_ring = static_cast<double>(std::count(pattern.keys.begin(), pattern.keys.end(), key));
  const double apart_m = diameter_m + 0.02;  // the least gap of find_clashes
  const double by_neighbours_m = on_this_ring > 1.0 ? apart_m / (2.0 * std::sin(constant::pi / on_this_ring)) : 0.0;
  const bool centre = std::find(pattern.keys.begin(), pattern.keys.end(), "centre") != pattern.keys.end();
  const double least_m = std::max(by_neighbours_m, centre ? apart_m : 0.0);
  if (least_m > largest_m) return "no ring of so many channels fits: use fewer or thinner ones";
  return "use at least \"" + tape_text(reader, factor * least_m + added_m, true) + '"';
}

/// Tells each kind of clash once a key: five channels of a ring hit the wall for one reason.
void tell_clashes(Reader& reader, const Section& section, const vessel::Design& design, const Pattern& pattern) {
  std::vector<std::pair<std::string_view, vessel::ClashKind>> told;
  for (const vessel::Clash& clash : vessel::find_clashes(design)) {
    if (!clash.refused) continue;
    std::string_view key = pattern.keys[clash.channel];
    if (clash.kind == vessel::ClashKind::channel_and_channel && key == "centre") key = pattern.keys[clash.other];
    const std::pair<std::string_view, vessel::ClashKind> kind{key, clash.kind};
    if (std::find(told.begin(), told.end(), kind) != told.end()) continue;
    told.push_back(kind);
    const std::string where =
        clash.kind == vessel::ClashKind::channel_and_wall ? "puts a channel on the wall" : "puts a channel on another";
    const auto length = [&](double m) { return quantity::format_workshop(m, reader.units); };
    refuse(reader, section, key, where + ": " + vessel::describe(clash, length),
           mend_of(reader, design, clash, key, pattern));
  }
}

bool measured(const vessel::Design& design, double diameter_m) {
  const bool plan = design.footprint == vessel::Footprint::round
                        ? std::isfinite(design.diameter_m)
                        : std::isfinite(design.length_m) && std::isfinite(design.width_m);
  return plan && std::isfinite(diameter_m);
}

}  // namespace

void build_channels(Reader& reader, const Section& section, vessel::Design& design) {
  if (!section.present) {
    reader.defaults.push_back({section.path, "none", "chosen: the file names no channels"});
    return;
  }
  const double diameter_m = amount(reader, section, "diameter");
  Pattern pattern;
  if (flag(reader, section, "centre")) append(pattern, {{{0.0, 0.0}, diameter_m}}, "centre");
  add_ring(reader, section, diameter_m, pattern);
  if (!measured(design, diameter_m)) return;
  add_grid(reader, section, diameter_m, design, pattern);
  add_places(section, diameter_m, pattern);
  if (!limits::holds(limits::channels, static_cast<double>(pattern.channels.size()))) {
    refuse(reader, section, pattern.keys[static_cast<std::size_t>(limits::most(limits::channels))],
           "brings the channels to " + std::to_string(pattern.channels.size()) + " in all",
           "use " + limits::allowed(limits::channels) + " channels in one vessel");
    return;
  }
  design.channels = pattern.channels;
  tell_clashes(reader, section, design, pattern);
}

}  // namespace stillheap::site
