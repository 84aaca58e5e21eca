#pragma once
#include <optional>
#include <string>

#include "planning/plan/plan.hpp"
#include "present/server/json.hpp"

/// A planned and forecast vessel as the page needs it.
namespace stillheap::server {

/// Shape, sizes and channels of a design.
[[nodiscard]] Json design_json(const vessel::Design& design);

/// What stands before any forecast: air path, better channels, blend, fill, water line.
[[nodiscard]] Json layout_json(const plan::VesselPlan& plan);

/// The forecast's summary, its history in columns of at most `most_rows`, what it rests on.
[[nodiscard]] Json outcome_json(const plan::VesselPlan& plan, std::size_t most_rows);

/// A field inside the heap as bytes: value = low + byte / 255 (high - low).
struct Field {
  std::string_view name;
  double low, high;
  std::vector<float> forecast::Snapshot::*values;
};
[[nodiscard]] std::span<const Field> fields() noexcept;

/// The mesh of the inside, the days of its snapshots, the heights of the levels, and the fields with their ranges.
[[nodiscard]] Json inside_json(const forecast::Result& result);

/// One byte a node, snapshot after snapshot, in the mesh's order.
[[nodiscard]] std::string inside_bytes(const forecast::Result& result, const Field& field);

}  // namespace stillheap::server
