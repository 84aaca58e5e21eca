#pragma once
#include <vector>

#include "core/base/note.hpp"
#include "domain/material/finder.hpp"
#include "planning/site/site.hpp"

namespace stillheap::plan {

/// What goes into every vessel, by proportion.
struct Recipe {
  std::vector<material::Part> parts;  ///< masses in any common scale
  bool by_programme = false;          ///< found by the linear programme
  double moisture_wet = 0.0;          ///< to soak to; the programme may ask for more than the wanted
  material::Found found;              ///< when found, for the volume asked
  Warnings warnings;                  ///< stock that does not last
  double volume_ratio = 1.0;          ///< volume in the vessel over the parts' loose volumes
};

/// The recipe for filling `counts[i]` vessels of every kind i. With fixed shares they are taken as they are;
/// otherwise the linear programme finds them. Where the stock lasts for the smallest set of vessels but not for
/// all, the recipe of that set is kept and a warning says so.
/// Throws InputError, with every limit in conflict, when not even the smallest set can be filled.
[[nodiscard]] Recipe choose_recipe(const site::Site& site, const std::vector<int>& counts);

/// The recipe scaled to a volume in the vessel, as delivered.
[[nodiscard]] material::Blend scaled_to(const Recipe& recipe, double volume_m3);

/// Greatest difference of any feedstock's share by mass between two recipes.
[[nodiscard]] double share_difference(const Recipe& a, const Recipe& b);

}  // namespace stillheap::plan
