#pragma once
#include "model/forecast/heap.hpp"
#include "model/forecast/result.hpp"

namespace stillheap::forecast {

/// The mesh for pictures: the plan unfolded to the full vessel, with layers + 1 levels of nodes.
[[nodiscard]] FieldMesh field_mesh(const Heap& heap);

/// Temperature, oxygen and moisture on that mesh. A level between two layers takes their mean, the lowest and
/// highest take their layer's value. Order: level by level, points of a level in mesh order.
[[nodiscard]] Snapshot take_snapshot(const Heap& heap, const State& state);

/// Where a cell stands in the full vessel at filling.
[[nodiscard]] Place3 place_of(const Heap& heap, int cell) noexcept;

}  // namespace stillheap::forecast
