#include "domain/material/estimate.hpp"

#include <algorithm>

#include "core/base/error.hpp"

namespace stillheap::material {

double moisture_from_drying(double wet_sample, double container, double dry_with_container) {
  const double dry_sample = dry_with_container - container;
  if (!(wet_sample > 0.0) || dry_sample < 0.0 || dry_sample > wet_sample) {
    throw InputError("oven drying", "the dry sample must weigh between nothing and as much as the wet one",
                     "weigh the wet sample without its container, the dry one with it");
  }
  return (wet_sample - dry_sample) / wet_sample;
}

double carbon_from_ash(double ash_dry) { return (1.0 - ash_dry) / 1.8; }

double degradable_share_from_lignin(double lignin_of_volatile) {
  return std::max(0.0, 0.830 - 2.8 * lignin_of_volatile);
}

}  // namespace stillheap::material
