#include "planning/site/build.hpp"

namespace stillheap::site {

void build_loads(Reader& reader, const Document& document, Site& site) {
  const Section& section = only_block(document, "loads").own;
  vessel::LoadChoices& loads = site.loads;
  loads.friction.pressure_ratio = amount(reader, section, "pressure_ratio");
  loads.friction.friction = amount(reader, section, "wall_friction");
  loads.wanted_safety = amount(reader, section, "wire_safety");
  loads.tilt_allowed = amount(reader, section, "lean");
  loads.bearer_width_m = amount(reader, section, "bearer_width");
  loads.ground_stiffness_pa = maybe_amount(section, "ground_stiffness").value_or(0.0);
}

}  // namespace stillheap::site
