#pragma once
#include <array>
#include <functional>
#include <span>
#include <vector>

#include "model/forecast/result.hpp"
#include "present/draw/canvas.hpp"

/// Cuts through the forecast's mesh, as flat triangles that carry values.
namespace stillheap::sheet {

/// Corner places in metres: x across, y up (in plan: north; in an upright cut: above the base).
struct ValueTriangle {
  std::array<Point, 3> corner;
  std::array<double, 3> value{};
};

/// Which field of a snapshot; one value a node.
using Field = std::vector<float>;

/// Place of a node in a snapshot's fields.
[[nodiscard]] std::size_t node_of(const forecast::FieldMesh& mesh, std::size_t point, std::size_t level) noexcept;

/// The plan at a share of the height (0 base, 1 top), linear between the levels.
[[nodiscard]] std::vector<ValueTriangle> plan_cut(const forecast::FieldMesh& mesh, const forecast::Snapshot& snapshot,
                                                  const Field& field, double height_share);

/// The upright cut along x through y = `y_m`; channels in its way stay empty.
[[nodiscard]] std::vector<ValueTriangle> upright_cut(const forecast::FieldMesh& mesh,
                                                     const forecast::Snapshot& snapshot, const Field& field,
                                                     double y_m);

/// The straight pieces along which the value equals `level`.
struct Segment {
  Point from, to;
};
[[nodiscard]] std::vector<Segment> level_line(std::span<const ValueTriangle> triangles, double level);

/// How a cut lies on the page: metres times `scale_pt_m`, the origin at `origin`, y upwards.
struct Projection {
  Spot origin;
  double scale_pt_m = 1.0;
  [[nodiscard]] Spot spot(Point p) const noexcept {
    return {origin.x + p.x_m * scale_pt_m, origin.y - p.y_m * scale_pt_m};
  }
};

/// Colours the triangles between `low` and `high` as an image inside the box.
void paint_field(Canvas& canvas, const Box& box, std::span<const ValueTriangle> triangles, const Projection& on_page,
                 FieldMap map, double low, double high);

}  // namespace stillheap::sheet
