#include <cmath>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

void check_holes(Reader& reader, const Section& section, const water::Line& line) {
  if (line.hole_diameter_m >= line.inside_diameter_m) {
    refuse(reader, section, "hole", "is not smaller than the pipe",
           "give less than " + shown(reader, line.inside_diameter_m, Dimension::length));
  }
  if (line.spacing_m <= line.hole_diameter_m) {
    refuse(reader, section, "spacing", "lets the holes run into each other",
           "give more than a hole's diameter, " + shown(reader, line.hole_diameter_m, Dimension::length));
  }
  if (line.spacing_m > line.length_m) {
    refuse(reader, section, "spacing", "leaves no hole on the line",
           "give at most the line's length, " + shown(reader, line.length_m, Dimension::length));
  }
}

void build_sprays(Reader& reader, const Section& section, water::Line& line) {
  line.sprays = whole(reader, section, "sprays");
  if (line.sprays == 0) return;
  if (!given(section, "spray_flow")) miss(reader, section, "spray_flow", "beside \"sprays\"");
  line.spray_flow_m3_s = maybe_amount(section, "spray_flow").value_or(NAN);
  line.spray_pressure_pa = amount(reader, section, "spray_pressure");
}

void build_line(Reader& reader, const Section& section, const Site& site, water::Line& line) {
  line.inside_diameter_m = amount(reader, section, "inside_diameter");
  line.hole_diameter_m = amount(reader, section, "hole");
  line.spacing_m = amount(reader, section, "spacing");
  line.discharge_coefficient = amount(reader, section, "discharge_coefficient");
  line.roughness_m = amount(reader, section, "roughness");
  line.ring = flag(reader, section, "ring");
  if (given(section, "length")) {
    line.length_m = *maybe_amount(section, "length");
  } else {
    line.length_m = site.vessels.empty() ? NAN : vessel::perimeter_m(site.vessels.front());
    note_default(reader, section, "length",
                 shown(reader, line.length_m, Dimension::length) + ", once around the first vessel");
  }
  check_holes(reader, section, line);
  build_sprays(reader, section, line);
}

void build_supply(Reader& reader, const Section& section, Site& site) {
  water::Supply& supply = site.water.supply;
  supply.pressure_pa = amount(reader, section, "pressure");
  site.water.before_regulator_pa = maybe_amount(section, "before_regulator").value_or(0.0);
  if (site.water.before_regulator_pa > 0.0 && site.water.before_regulator_pa < supply.pressure_pa) {
    refuse(reader, section, "before_regulator", "is below the pressure behind it",
           "give at least " + shown(reader, supply.pressure_pa, Dimension::pressure));
  }
  supply.flow_max_m3_s = amount(reader, section, "flow");
}

/// A line wants its two sections; by hand neither is read, but for the salts of the water.
bool has_line(Reader& reader, const Block& block) {
  bool complete = true;
  for (const char* const path : {"water.line", "water.supply"}) {
    const Section& section = part(block, path);
    if (section.present) continue;
    complete = false;
    if (!block.own.present) continue;  // told already
    add(reader.report, block.own.line, section.path, "is missing",
        std::string("add [") + path + "], or write by = \"hand\" in [water] when you water by can or hose");
  }
  return complete;
}

}  // namespace

void build_water(Reader& reader, const Document& document, Site& site) {
  const Block& block = only_block(document, "water");
  site.water.by_hand = word(reader, block.own, "by") == "hand";
  site.water.application_efficiency = amount(reader, block.own, "application_efficiency");
  site.water.leaching_share = amount(reader, block.own, "leaching");
  site.water.drinking_water = flag(reader, block.own, "drinking_water");
  site.water.supply.conductivity_s_m = amount(reader, part(block, "water.supply"), "conductivity");
  site.practice.water_line = !site.water.by_hand;
  if (site.water.by_hand) {
    site.water.can_m3 = amount(reader, block.own, "can");
    if (part(block, "water.line").present)
      reader.defaults.push_back({"water.line", "not used: watered by hand", "site file"});
    return;
  }
  site.water.timer_step_s = amount(reader, block.own, "timer_step");
  if (!has_line(reader, block)) return;
  build_line(reader, part(block, "water.line"), site, site.water.line);
  build_supply(reader, part(block, "water.supply"), site);
}

}  // namespace stillheap::site
