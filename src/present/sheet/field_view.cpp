#include "present/sheet/field_view.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <optional>

namespace stillheap::sheet {
namespace {

using forecast::FieldMesh;
using forecast::Snapshot;

/// Where the cut crosses an edge of the plan: between two points, at a share of the way.
struct Crossing {
  std::size_t from = 0, to = 0;
  double share = 0.0;
  double x_m = 0.0;
};

std::optional<Crossing> cross(const FieldMesh& mesh, int from, int to, double y_m) {
  const auto a = static_cast<std::size_t>(from);
  const auto b = static_cast<std::size_t>(to);
  const Point p = mesh.points[a];
  const Point q = mesh.points[b];
  if ((p.y_m >= y_m) == (q.y_m >= y_m)) return std::nullopt;
  const double share = (y_m - p.y_m) / (q.y_m - p.y_m);
  return Crossing{a, b, share, std::lerp(p.x_m, q.x_m, share)};
}

constexpr double pixels_per_pt = 3.0;  // chosen: 216 dots per inch, even steps on paper and small files

struct Image {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;
};

std::uint32_t packed(Colour colour) {
  const auto byte = [](double channel) { return static_cast<std::uint32_t>(std::lround(channel * 255.0)); };
  return 0xFF000000U | byte(colour.red) << 16U | byte(colour.green) << 8U | byte(colour.blue);
}

/// Fills every pixel whose middle lies in the triangle, with the value interpolated there.
template <class Paint>
void scan(Image& image, const std::array<Spot, 3>& c, const std::array<double, 3>& value, const Paint& paint) {
  const double area = (c[1].x - c[0].x) * (c[2].y - c[0].y) - (c[2].x - c[0].x) * (c[1].y - c[0].y);
  if (std::abs(area) < 1e-12) return;
  const auto [x_low, x_high] = std::minmax({c[0].x, c[1].x, c[2].x});
  const auto [y_low, y_high] = std::minmax({c[0].y, c[1].y, c[2].y});
  const int last_x = std::min(image.width - 1, static_cast<int>(x_high));
  const int last_y = std::min(image.height - 1, static_cast<int>(y_high));
  for (int j = std::max(0, static_cast<int>(y_low)); j <= last_y; ++j) {
    for (int i = std::max(0, static_cast<int>(x_low)); i <= last_x; ++i) {
      const double x = i + 0.5;
      const double y = j + 0.5;
      const double b = ((x - c[0].x) * (c[2].y - c[0].y) - (c[2].x - c[0].x) * (y - c[0].y)) / area;
      const double d = ((c[1].x - c[0].x) * (y - c[0].y) - (x - c[0].x) * (c[1].y - c[0].y)) / area;
      if (b < -1e-9 || d < -1e-9 || b + d > 1.0 + 1e-9) continue;
      const auto at = static_cast<std::size_t>(j) * static_cast<std::size_t>(image.width) + static_cast<std::size_t>(i);
      image.pixels[at] = paint((1.0 - b - d) * value[0] + b * value[1] + d * value[2]);
    }
  }
}

void place_image(Canvas& canvas, const Box& box, Image& image) {
  struct Free {
    void operator()(cairo_surface_t* surface) const noexcept { cairo_surface_destroy(surface); }
  };
  const std::unique_ptr<cairo_surface_t, Free> surface(
      cairo_image_surface_create(CAIRO_FORMAT_ARGB32, image.width, image.height));
  unsigned char* const rows = cairo_image_surface_get_data(surface.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  const auto width = static_cast<std::size_t>(image.width);
  for (std::size_t j = 0; j < static_cast<std::size_t>(image.height); ++j) {
    const auto* const from = reinterpret_cast<const unsigned char*>(image.pixels.data() + j * width);
    std::copy_n(from, width * sizeof(std::uint32_t), rows + j * stride);
  }
  cairo_surface_mark_dirty(surface.get());
  cairo_t* const cairo = canvas.cairo();
  cairo_save(cairo);
  cairo_translate(cairo, box.x, box.y);
  cairo_scale(cairo, 1.0 / pixels_per_pt, 1.0 / pixels_per_pt);
  cairo_set_source_surface(cairo, surface.get(), 0.0, 0.0);
  cairo_paint(cairo);
  cairo_restore(cairo);
}

}  // namespace

std::size_t node_of(const FieldMesh& mesh, std::size_t point, std::size_t level) noexcept {
  return level * mesh.points.size() + point;
}

std::vector<ValueTriangle> plan_cut(const FieldMesh& mesh, const Snapshot& snapshot, const Field& field,
                                    double height_share) {
  std::vector<ValueTriangle> cut;
  if (mesh.levels < 2 || field.empty()) return cut;
  const double place = std::clamp(height_share, 0.0, 1.0) * static_cast<double>(mesh.levels - 1);
  // Levels settle unevenly, so the share is of the height in metres, found between the two levels around it.
  const double height_m = std::lerp(snapshot.level_m.front(), snapshot.level_m.back(), place / (mesh.levels - 1));
  std::size_t below = 0;
  while (below + 2 < snapshot.level_m.size() && snapshot.level_m[below + 1] <= height_m) ++below;
  const double step = snapshot.level_m[below + 1] - snapshot.level_m[below];
  const double share = step > 0.0 ? std::clamp((height_m - snapshot.level_m[below]) / step, 0.0, 1.0) : 0.0;
  for (const auto& triangle : mesh.triangles) {
    ValueTriangle piece;
    for (std::size_t k = 0; k < 3; ++k) {
      const auto point = static_cast<std::size_t>(triangle[k]);
      piece.corner[k] = mesh.points[point];
      piece.value[k] = std::lerp(static_cast<double>(field[node_of(mesh, point, below)]),
                                 static_cast<double>(field[node_of(mesh, point, below + 1)]), share);
    }
    cut.push_back(piece);
  }
  return cut;
}

std::vector<ValueTriangle> upright_cut(const FieldMesh& mesh, const Snapshot& snapshot, const Field& field,
                                       double y_m) {
  std::vector<ValueTriangle> cut;
  const auto levels = static_cast<std::size_t>(std::max(0, mesh.levels));
  for (const auto& triangle : mesh.triangles) {
    std::vector<Crossing> ends;
    for (std::size_t k = 0; k < 3; ++k) {
      if (const auto end = cross(mesh, triangle[k], triangle[(k + 1) % 3], y_m)) ends.push_back(*end);
    }
    if (ends.size() != 2) continue;
    const auto value = [&](const Crossing& end, std::size_t level) {
      return std::lerp(static_cast<double>(field[node_of(mesh, end.from, level)]),
                       static_cast<double>(field[node_of(mesh, end.to, level)]), end.share);
    };
    for (std::size_t level = 0; level + 1 < levels; ++level) {
      const double low_m = snapshot.level_m[level];
      const double high_m = snapshot.level_m[level + 1];
      const std::array<Point, 4> corner{
          {{ends[0].x_m, low_m}, {ends[1].x_m, low_m}, {ends[1].x_m, high_m}, {ends[0].x_m, high_m}}};
      const std::array<double, 4> v{value(ends[0], level), value(ends[1], level), value(ends[1], level + 1),
                                    value(ends[0], level + 1)};
      cut.push_back({{corner[0], corner[1], corner[2]}, {v[0], v[1], v[2]}});
      cut.push_back({{corner[0], corner[2], corner[3]}, {v[0], v[2], v[3]}});
    }
  }
  return cut;
}

std::vector<Segment> level_line(std::span<const ValueTriangle> triangles, double level) {
  std::vector<Segment> pieces;
  for (const ValueTriangle& triangle : triangles) {
    std::vector<Point> ends;
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t next = (k + 1) % 3;
      const double a = triangle.value[k];
      const double b = triangle.value[next];
      if ((a >= level) == (b >= level)) continue;
      const double share = (level - a) / (b - a);
      ends.push_back({std::lerp(triangle.corner[k].x_m, triangle.corner[next].x_m, share),
                      std::lerp(triangle.corner[k].y_m, triangle.corner[next].y_m, share)});
    }
    if (ends.size() == 2) pieces.push_back({ends[0], ends[1]});
  }
  return pieces;
}

void paint_field(Canvas& canvas, const Box& box, std::span<const ValueTriangle> triangles, const Projection& on_page,
                 FieldMap map, double low, double high) {
  Image image{static_cast<int>(std::ceil(box.width * pixels_per_pt)),
              static_cast<int>(std::ceil(box.height * pixels_per_pt)),
              {}};
  if (image.width < 1 || image.height < 1) return;
  image.pixels.assign(static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height), 0U);
  const double range = high > low ? high - low : 1.0;
  const auto paint = [&](double value) { return packed(map_colour(map, (value - low) / range)); };
  for (const ValueTriangle& triangle : triangles) {
    std::array<Spot, 3> corner;
    for (std::size_t k = 0; k < 3; ++k) {
      const Spot spot = on_page.spot(triangle.corner[k]);
      corner[k] = {(spot.x - box.x) * pixels_per_pt, (spot.y - box.y) * pixels_per_pt};
    }
    scan(image, corner, triangle.value, paint);
  }
  place_image(canvas, box, image);
}

}  // namespace stillheap::sheet
