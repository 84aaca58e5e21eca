#include "present/server/site_edits.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "planning/site/value_text.hpp"

namespace stillheap::server {
namespace {

constexpr double hair_m = 5e-4;      // half a millimetre: closer is the same
constexpr double hair_share = 5e-5;  // of what is written, two decimals of a percent
constexpr double hair_rad = 2e-3;    // a tenth of a degree

bool same(const std::vector<vessel::Channel>& a, const std::vector<vessel::Channel>& b) {
  return std::equal(
      a.begin(), a.end(), b.begin(), b.end(), [](const vessel::Channel& one, const vessel::Channel& other) {
        return std::hypot(one.centre.x_m - other.centre.x_m, one.centre.y_m - other.centre.y_m) < hair_m &&
               std::abs(one.diameter_m - other.diameter_m) < hair_m;
      });
}

struct Ring {
  std::size_t count = 0;
  double radius_m = 0.0;
  double first_rad = 0.0;
  bool centre = false;
};

/// The channels as an even ring, in the order they are laid, with or without one in the middle.
std::optional<Ring> ring_of(const std::vector<vessel::Channel>& channels) {
  Ring ring;
  std::vector<Point> round;
  for (const vessel::Channel& one : channels) {
    if (std::hypot(one.centre.x_m, one.centre.y_m) >= hair_m) {
      round.push_back(one.centre);
    } else if (ring.centre) {
      return std::nullopt;
    } else {
      ring.centre = true;
    }
  }
  ring.count = round.size();
  if (round.empty()) return ring;
  ring.radius_m = std::hypot(round.front().x_m, round.front().y_m);
  ring.first_rad = std::atan2(round.front().y_m, round.front().x_m);
  for (std::size_t i = 0; i < round.size(); ++i) {
    const double angle =
        ring.first_rad + 2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(round.size());
    if (std::hypot(round[i].x_m - ring.radius_m * std::cos(angle), round[i].y_m - ring.radius_m * std::sin(angle)) >
        std::max(hair_m, hair_rad * ring.radius_m)) {
      return std::nullopt;
    }
  }
  return ring;
}

void add_channels(std::vector<site::Edit>& edits, const vessel::Design& design,
                  const std::vector<vessel::Channel>& channels, UnitSystem units) {
  const auto put = [&](const char* key, std::optional<std::string> value) {
    edits.push_back({"vessel.channels", design.name, key, std::move(value)});
  };
  const auto drop = [&](std::initializer_list<const char*> keys) {
    for (const char* key : keys) put(key, std::nullopt);
  };
  if (!channels.empty()) put("diameter", site::length_text(channels.front().diameter_m, units));
  const std::optional<Ring> ring = design.footprint == vessel::Footprint::round ? ring_of(channels) : std::nullopt;
  if (!ring) {
    std::string list;
    for (const vessel::Channel& one : channels) {
      list += (list.empty() ? "[" : ", [") + site::length_text(one.centre.x_m, units) + ", " +
              site::length_text(one.centre.y_m, units) + ']';
    }
    drop({"count", "radius", "hoop", "first_angle", "centre", "grid"});
    put("at", '[' + list + ']');
    return;
  }
  drop({"at", "grid", "hoop"});
  put("count", std::to_string(ring->count));
  put("centre", ring->centre ? "true" : "false");
  if (ring->count == 0) return drop({"radius", "first_angle"});
  put("radius", site::length_text(ring->radius_m, units));
  put("first_angle", site::in_quotes(site::formatted("%.1f", ring->first_rad * 180.0 / std::numbers::pi) + " deg"));
}

void add_sizes(std::vector<site::Edit>& edits, const vessel::Design& design, const Change& change, UnitSystem units) {
  const auto put = [&](const char* key, const std::optional<double>& wanted, double now) {
    if (!wanted || std::abs(*wanted - now) < hair_m) return;
    edits.push_back({"vessel", design.name, key, site::length_text(*wanted, units)});
  };
  put("diameter", change.diameter_m, design.diameter_m);
  // a panel's length says the same; only one of the two may stand
  if (!edits.empty()) edits.push_back({"vessel", design.name, "panel_length", std::nullopt});
  put("length", change.length_m, design.length_m);
  put("width", change.width_m, design.width_m);
  const double least_height_m = std::max(design.height_m, change.fill_height_m.value_or(design.fill_height_m));
  put("height", change.height_m.value_or(least_height_m), design.height_m);
  put("fill_height", change.fill_height_m, design.fill_height_m);
}

void add_shares(std::vector<site::Edit>& edits, const site::Site& site, const std::map<std::string, double>& shares) {
  std::string table;
  bool differs = shares.size() < site.blend.shares_by_mass.size();
  for (const auto& [id, share] : shares) {
    const auto now = site.blend.shares_by_mass.find(id);
    differs = differs || std::abs(share - (now == site.blend.shares_by_mass.end() ? 0.0 : now->second)) > hair_share;
    if (share > hair_share) table += (table.empty() ? " " : ", ") + id + " = " + site::percent_text(share);
  }
  if (!differs) return;
  edits.push_back({"blend", "", "shares", '{' + table + " }"});
  for (const char* key : {"shares_by", "aim"})
    edits.push_back({"blend", "", key, std::nullopt});  // of a searched blend
}

}  // namespace

std::vector<site::Edit> edits_of(const site::Site& site, const Change& change) {
  const vessel::Design& design = named_design(site, change.design);
  std::vector<site::Edit> edits;
  add_sizes(edits, design, change, site.units);
  if (change.channels && !same(*change.channels, design.channels)) {
    add_channels(edits, design, *change.channels, site.units);
  }
  if (change.shares) add_shares(edits, site, *change.shares);
  if (change.moisture_wet && std::abs(*change.moisture_wet - site.blend.moisture_target_wet) > hair_share) {
    edits.push_back({"blend", "", "soaked_moisture", site::percent_text(*change.moisture_wet)});
  }
  if (change.start_date && *change.start_date != site.start_date) {
    edits.push_back({"site", "", "first_fill", *change.start_date});
  }
  return edits;
}

}  // namespace stillheap::server
