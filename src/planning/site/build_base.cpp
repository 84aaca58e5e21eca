#include <cmath>

#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

/// A slat whose middle lies `offset_m` off the vessel's; on a round vessel it ends where its inner edge meets the wall.
vessel::Slat slat_at(const vessel::Design& design, bool along, double offset_m, double width_m) {
  double half_m = (along ? design.length_m : design.width_m) / 2.0;
  if (design.footprint == vessel::Footprint::round) {
    const double radius_m = design.diameter_m / 2.0;
    const double inner_m = std::max(std::abs(offset_m) - width_m / 2.0, 0.0);
    half_m = std::sqrt(std::max(radius_m * radius_m - inner_m * inner_m, 0.0));
  }
  if (along) return {{-half_m, offset_m}, {half_m, offset_m}, width_m};
  return {{offset_m, -half_m}, {offset_m, half_m}, width_m};
}

void build_slats(Reader& reader, const Section& section, int count, vessel::Design& design) {
  const bool along = word(reader, section, "slats_run") != "across";
  const bool round = design.footprint == vessel::Footprint::round;
  const double extent_m = round ? design.diameter_m : along ? design.width_m : design.length_m;
  if (!given(section, "slat_width")) {
    miss(reader, section, "slat_width", "beside \"slats\"");
    return;
  }
  const double width_m = *maybe_amount(section, "slat_width");
  if (count * width_m >= extent_m) {
    refuse(reader, section, "slats", "leaves no air between slats of " + shown(reader, width_m, Dimension::length),
           "use at most " + std::to_string(static_cast<int>(std::ceil(extent_m / width_m)) - 1) + " of them");
    return;
  }
  if (!std::isfinite(width_m) || !std::isfinite(extent_m)) return;
  for (int i = 0; i < count; ++i) {
    design.slats.push_back(slat_at(design, along, ((i + 0.5) / count - 0.5) * extent_m, width_m));
  }
}

}  // namespace

void build_base(Reader& reader, const Section& section, vessel::Design& design) {
  design.base_open = flag(reader, section, "open");
  const int slats = whole(reader, section, "slats");
  if (!design.base_open) {
    for (const std::string_view name : {"gap", "slats", "slat_width", "slats_run"}) {
      if (!given(section, name) || !value(section, "open").good) continue;
      refuse(reader, section, name, "belongs to an open base", "take it out, or set \"open\" to true");
    }
    return;
  }
  design.base_gap_m = amount(reader, section, "gap");
  if (design.base_gap_m == 0.0) {
    refuse(reader, section, "gap", "lets no air under the base", "give a height above 0, or set \"open\" to false");
  }
  if (slats > 0) build_slats(reader, section, slats, design);
}

}  // namespace stillheap::site
