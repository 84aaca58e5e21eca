#pragma once
#include <optional>
#include <vector>

#include "domain/vessel/design.hpp"
#include "yard/insight/heap_hygiene.hpp"

/// The material of a vessel as points, for the share that its probes speak for.
namespace stillheap::yard {

/// Distance from a point of the material to the nearest cooling face: wall (open or closed), channel, top or base.
/// Below zero inside a channel or outside the vessel. The heap is taken as high as on its first day.
[[nodiscard]] double to_face_m(const vessel::Design& design, Point plan, double height_m) noexcept;

/// The material in equal pieces, about `pieces` of them.
[[nodiscard]] std::vector<insight::MaterialPoint> material_points(const vessel::Design& design, int pieces = 60000);

/// Where a probe stands. A missing angle is taken where the probe lies deepest, which makes the share it speaks for
/// small. Nothing when depth and height or the distance from the middle are missing, or the place is not in the
/// material.
[[nodiscard]] std::optional<insight::ProbePoint> probe_point(const vessel::Design& design, const insight::Spot& spot);

}  // namespace stillheap::yard
