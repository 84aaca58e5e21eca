#include "present/server/section_json.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <vector>

namespace stillheap::server {
namespace {

constexpr int columns = 31;  // chosen: odd, so that one lies in the middle

/// A place of the plan between three nodes.
struct Spot {
  std::array<int, 3> nodes{};
  std::array<double, 3> shares{};
};

/// Barycentric coordinates; nothing when (x, 0) lies outside the triangle.
std::optional<std::array<double, 3>> shares_in(const std::array<Point, 3>& corner, double x_m) {
  const auto cross = [&](const Point& a, const Point& b) { return (a.x_m - x_m) * b.y_m - (b.x_m - x_m) * a.y_m; };
  const double a = cross(corner[1], corner[2]);
  const double b = cross(corner[2], corner[0]);
  const double c = cross(corner[0], corner[1]);
  const double whole = a + b + c;
  if (whole == 0.0) return std::nullopt;
  const std::array<double, 3> shares{a / whole, b / whole, c / whole};
  constexpr double hair = -1e-9;  // a point on an edge belongs to both triangles
  for (const double one : shares) {
    if (one < hair) return std::nullopt;
  }
  return shares;
}

std::optional<Spot> spot_at(const forecast::FieldMesh& mesh, double x_m) {
  for (const std::array<int, 3>& nodes : mesh.triangles) {
    std::array<Point, 3> corner;
    for (std::size_t k = 0; k < 3; ++k) corner[k] = mesh.points[static_cast<std::size_t>(nodes[k])];
    if (const auto shares = shares_in(corner, x_m)) return Spot{nodes, *shares};
  }
  return std::nullopt;
}

Json row_json(const std::vector<std::optional<Spot>>& spots, const forecast::Snapshot& one, std::size_t first_node) {
  Json row = Json::array();
  for (const std::optional<Spot>& spot : spots) {
    if (!spot) {
      row.push_back(nullptr);
      continue;
    }
    double celsius = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
      celsius += spot->shares[k] * static_cast<double>(one.temperature_c[first_node + spot->nodes[k]]);
    }
    row.push_back(std::lround(celsius));
  }
  return row;
}

}  // namespace

Json section_json(const forecast::Result& result, double width_m) {
  Json x = Json::array();
  std::vector<std::optional<Spot>> spots;
  for (int i = 0; i < columns; ++i) {
    const double x_m = width_m * ((i + 0.5) / columns - 0.5);
    x.push_back(std::round(x_m * 1e4) / 1e4);
    spots.push_back(spot_at(result.mesh, x_m));
  }
  Json days = Json::array();
  Json levels = Json::array();
  Json celsius = Json::array();
  for (const forecast::Snapshot& one : result.snapshots) {
    days.push_back(std::round(one.day * 1e3) / 1e3);
    Json heights = Json::array();
    Json rows = Json::array();
    for (std::size_t level = 0; level < one.level_m.size(); ++level) {
      heights.push_back(std::round(one.level_m[level] * 1e4) / 1e4);
      rows.push_back(row_json(spots, one, level * result.mesh.points.size()));
    }
    levels.push_back(std::move(heights));
    celsius.push_back(std::move(rows));
  }
  return {{"x_m", x}, {"days", days}, {"level_m", levels}, {"celsius", celsius}};
}

}  // namespace stillheap::server
