#pragma once
#include <vector>

#include "model/forecast/result.hpp"
#include "planning/site/site.hpp"

namespace stillheap::plan {

/// How many of each kind make the smallest set in the proportions of the site file: {4, 2} -> {2, 1}.
[[nodiscard]] std::vector<int> smallest_set(const std::vector<vessel::Design>& designs);

/// How many of each kind to begin with: the wanted number of vessels shared out in the file's proportions, or
/// one smallest set when a volume of compost is wanted.
[[nodiscard]] std::vector<int> starting_counts(const site::Site& site);

/// Sets needed for a yearly volume, from what one set yields a fill, one fill a year. At least 1.
/// Throws RunError when a set yields nothing.
[[nodiscard]] int sets_for(double wanted_m3, double one_set_m3);

/// Finished volume of one fill of all vessels; `finished[i]` belongs to one vessel of kind i. The band of the
/// sum adds the ends: all vessels share one recipe and one weather, so their losses go together.
[[nodiscard]] forecast::Banded finished_volume_m3(const std::vector<forecast::Banded>& finished,
                                                  const std::vector<int>& counts);

}  // namespace stillheap::plan
