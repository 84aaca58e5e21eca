#include <algorithm>
#include <cmath>
#include <numeric>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

using vessel::Design;
using vessel::Footprint;

/// Refuses sizes of the other shape, which would be ignored in silence.
void refuse_foreign(Reader& reader, const Section& section, std::initializer_list<std::string_view> names,
                    const std::string& shape) {
  for (const std::string_view name : names) {
    if (given(section, name)) {
      refuse(reader, section, name, "is no size of a " + shape + " vessel", "take it out, or change \"shape\"");
    }
  }
}

void build_outline(Reader& reader, const Section& section, Design& design) {
  design.footprint = word(reader, section, "shape") == "rectangular" ? Footprint::rectangular : Footprint::round;
  if (!value(section, "shape").good) {
    design.diameter_m = NAN;
    return;
  }
  if (design.footprint == Footprint::rectangular) {
    refuse_foreign(reader, section, {"diameter", "panel_length"}, "rectangular");
    for (const std::string_view side : {"length", "width"}) {
      if (!given(section, side)) miss(reader, section, side, "for a rectangular vessel");
    }
    design.length_m = maybe_amount(section, "length").value_or(NAN);
    design.width_m = maybe_amount(section, "width").value_or(NAN);
    return;
  }
  refuse_foreign(reader, section, {"length", "width"}, "round");
  design.diameter_m = NAN;
  if (!exactly_one(reader, section, "diameter", "panel_length")) return;
  const std::optional<double> panel_m = maybe_amount(section, "panel_length");
  design.diameter_m = panel_m ? vessel::ring_diameter_m(*panel_m) : *maybe_amount(section, "diameter");
}

void build_heights(Reader& reader, const Section& section, Design& design) {
  design.height_m = amount(reader, section, "height");
  design.fill_height_m = design.height_m;
  const std::string height_text = shown(reader, design.height_m, Dimension::length);
  if (given(section, "fill_height")) {
    design.fill_height_m = *maybe_amount(section, "fill_height");
    if (design.fill_height_m > design.height_m) {
      refuse(reader, section, "fill_height", "is above the brim", "give at most the height, " + height_text);
    }
  } else {
    note_default(reader, section, "fill_height", height_text);
  }
  design.panel_width_m = design.height_m;
  if (given(section, "panel_width")) {
    design.panel_width_m = *maybe_amount(section, "panel_width");
    if (design.panel_width_m < design.height_m) {
      refuse(reader, section, "panel_width", "does not reach up to the brim",
             "give at least the height, " + height_text);
    }
  } else if (design.wall == vessel::Wall::open) {
    note_default(reader, section, "panel_width", height_text);
  }
}

void build_mesh(Reader& reader, const Section& section, Design& design) {
  if (!section.present) return;
  vessel::WireMesh mesh;
  mesh.wire_diameter_m = amount(reader, section, "wire");
  mesh.spacing_m = amount(reader, section, "spacing");
  mesh.allowed_stress_pa = amount(reader, section, "allowed_stress");
  if (mesh.wire_diameter_m >= mesh.spacing_m) {
    refuse(reader, section, "wire", "is not thinner than its spacing",
           "give less than " + shown(reader, mesh.spacing_m, Dimension::length));
  }
  design.mesh = mesh;
}

Design build_design(Reader& reader, const Block& block) {
  const Section& section = block.own;
  Design design;
  design.name = word(reader, section, "name");
  design.wall = word(reader, section, "wall") == "closed" ? vessel::Wall::closed : vessel::Wall::open;
  build_outline(reader, section, design);
  build_heights(reader, section, design);
  build_mesh(reader, part(block, "vessel.mesh"), design);
  if (design.wall == vessel::Wall::open) {
    const Section& lining = part(block, "vessel.lining");
    design.lining_overlap_m = amount(reader, lining, "flap");
    design.lining_fold_m = amount(reader, lining, "fold");
  }
  build_base(reader, part(block, "vessel.base"), design);
  build_channels(reader, part(block, "vessel.channels"), design);
  return design;
}

/// How many of each kind: as written, or all that the goal asks for when there is one kind only.
void set_counts(Reader& reader, const std::vector<Block>& blocks, Site& site) {
  const bool one_kind = blocks.size() == 1 && site.goal.vessels.value_or(0) > 0;
  bool all_given = true;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const Section& section = blocks[i].own;
    int& count = site.vessels[i].count;
    if (given(section, "count")) {
      count = whole(reader, section, "count");
      continue;
    }
    all_given = false;
    count = one_kind ? *site.goal.vessels : 1;
    note_default(reader, section, "count", std::to_string(count));
  }
  const int sum = std::accumulate(site.vessels.begin(), site.vessels.end(), 0,
                                  [](int before, const Design& design) { return before + design.count; });
  const bool all_good = std::all_of(blocks.begin(), blocks.end(), [](const Block& block) {
    return !given(block.own, "count") || value(block.own, "count").good;
  });
  const int wanted = site.goal.vessels.value_or(0);
  if (!all_given || !all_good || wanted == 0 || sum == wanted) return;
  refuse(reader, blocks.back().own, "count",
         "brings the vessels to " + std::to_string(sum) + ", but goal.vessels says " + std::to_string(wanted),
         "let the counts add up to goal.vessels, or leave \"count\" out");
}

}  // namespace

void build_vessels(Reader& reader, const Document& document, Site& site) {
  const std::vector<Block>& blocks = document.blocks.find("vessel")->second;
  for (const Block& block : blocks) {
    Design design = build_design(reader, block);
    const bool twice = std::any_of(site.vessels.begin(), site.vessels.end(), [&](const Design& other) {
      return other.name == design.name && !other.name.empty();
    });
    if (twice) refuse(reader, block.own, "name", "is there twice", "give each kind of vessel its own name");
    site.vessels.push_back(std::move(design));
  }
  if (!blocks.empty()) set_counts(reader, blocks, site);
}

}  // namespace stillheap::site
