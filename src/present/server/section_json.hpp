#pragma once
#include "model/forecast/result.hpp"
#include "present/server/json.hpp"

namespace stillheap::server {

/// Temperatures of the cut through the middle along the length, as the page colours its drawing: `x_m` the middles of
/// even columns from wall to wall, `days` and `level_m` those of the snapshots, `celsius` a list a snapshot with a row
/// a level of whole degrees, linear within the plan's triangles; null where a channel stands. `width_m` is the vessel's
/// diameter or length.
[[nodiscard]] Json section_json(const forecast::Result& result, double width_m);

}  // namespace stillheap::server
