#include <cmath>

#include "domain/vessel/base.hpp"
#include "planning/site/build.hpp"

namespace stillheap::site {
namespace {

double extent_across_m(const vessel::Design& design, bool along) {
  if (design.footprint == vessel::Footprint::round) return design.diameter_m;
  return along ? design.width_m : design.length_m;
}

/// As written, or as many as leave gaps as wide as themselves.
int slat_count(Reader& reader, const Section& section, double extent_m, double width_m) {
  if (given(section, "slats")) return whole(reader, section, "slats");
  if (!std::isfinite(extent_m)) return 0;
  const int count = std::max(2, static_cast<int>(std::lround(extent_m / (2.0 * width_m))));
  if (count * width_m >= extent_m) return 0;
  note_default(reader, section, "slats", std::to_string(count) + ", with gaps as wide as themselves");
  return count;
}

void build_slats(Reader& reader, const Section& section, vessel::Design& design) {
  const bool along = word(reader, section, "slats_run") != "across";
  const double extent_m = extent_across_m(design, along);
  const double width_m = amount(reader, section, "slat_width");
  const int count = slat_count(reader, section, extent_m, width_m);
  if (count == 0) return;
  if (count * width_m >= extent_m) {
    refuse(reader, section, "slats", "leaves no air between slats of " + shown(reader, width_m, Dimension::length),
           "use at most " + std::to_string(static_cast<int>(std::ceil(extent_m / width_m)) - 1) + " of them");
    return;
  }
  if (!std::isfinite(width_m) || !std::isfinite(extent_m)) return;
  for (int i = 0; i < count; ++i) {
    design.slats.push_back(vessel::strip_across(design, along, ((i + 0.5) / count - 0.5) * extent_m, width_m));
  }
}

}  // namespace

void build_base(Reader& reader, const Section& section, vessel::Design& design) {
  design.base_open = flag(reader, section, "open");
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
  build_slats(reader, section, design);
}

}  // namespace stillheap::site
