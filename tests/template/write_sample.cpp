/// Writes the templates of two vessels into the folder named on the command line, for measure.py.
#include <cmath>
#include <cstdio>

#include "core/base/constants.hpp"
#include "present/template/template_drawing.hpp"

namespace {

using namespace stillheap;

vessel::Design round_ring() {
  vessel::Design design;
  design.name = "ring";
  design.diameter_m = vessel::ring_diameter_m(12.5 * 0.3048);
  design.height_m = design.fill_height_m = 1.5;
  design.channels = vessel::ring_channels({5, 0.3048, 0.0}, 0.1016, true);
  for (int i = 0; i < 8; ++i) {
    const double y = -0.5 + i / 7.0;
    const double half = std::sqrt(0.606 * 0.606 - y * y);
    design.slats.push_back({{-half, y}, {half, y}, 0.0635});
  }
  return design;
}

vessel::Design bin() {
  vessel::Design design;
  design.name = "bin";
  design.footprint = vessel::Footprint::rectangular;
  design.length_m = 1.3;
  design.width_m = 0.8;
  design.height_m = design.fill_height_m = 1.2;
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 2; ++j) design.channels.push_back({{-0.4 + 0.4 * i, -0.175 + 0.35 * j}, i == 1 ? 0.11 : 0.063});
  }
  return design;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  plan::Plan plan;
  plan.site.start_date = "2026-04-03";
  plan.vessels.resize(1);
  plan.vessels[0].design = round_ring();
  plan.site.units = UnitSystem::us;
  sheet::write_templates(plan, words[1]);
  plan.vessels[0].design = bin();
  plan.site.units = UnitSystem::metric;
  for (const auto& file : sheet::write_templates(plan, words[1])) std::printf("%s\n", file.filename().string().c_str());
  return 0;
}
