#include <cstdio>
#include <filesystem>

#include "model/forecast/output.hpp"

/// Writes the fields of an invented vessel whose values are known at every place, for read_fields.py:
/// temperature 20 + 10 x + 5 y + 3 z degC, oxygen 0.10 + 0.02 z, moisture 0.50 + 0.10 x, on a box of 1.0 m by 0.8 m.
namespace stillheap {
namespace {

forecast::FieldMesh box_mesh() {
  constexpr int nx = 8, ny = 6;
  forecast::FieldMesh mesh;
  mesh.levels = 4;
  for (int j = 0; j <= ny; ++j)
    for (int i = 0; i <= nx; ++i) mesh.points.push_back({-0.5 + 1.0 * i / nx, -0.4 + 0.8 * j / ny});
  for (int j = 0; j < ny; ++j) {
    for (int i = 0; i < nx; ++i) {
      const int a = j * (nx + 1) + i, b = a + 1, c = b + nx + 1, d = a + nx + 1;
      mesh.triangles.push_back({a, b, c});
      mesh.triangles.push_back({a, d, c});  // clockwise: the writer must turn it
    }
  }
  return mesh;
}

forecast::Snapshot snapshot_of(const forecast::FieldMesh& mesh, double day, double height_m) {
  forecast::Snapshot snapshot;
  snapshot.day = day;
  snapshot.level_m = {0.0, 0.2 * height_m, 0.7 * height_m, height_m};  // uneven, as after settling
  for (const double z : snapshot.level_m) {
    for (const Point& p : mesh.points) {
      snapshot.temperature_c.push_back(static_cast<float>(20.0 + 10.0 * p.x_m + 5.0 * p.y_m + 3.0 * z));
      snapshot.oxygen.push_back(static_cast<float>(0.10 + 0.02 * z));
      snapshot.moisture_wet.push_back(static_cast<float>(0.50 + 0.10 * p.x_m));
    }
  }
  return snapshot;
}

}  // namespace
}  // namespace stillheap

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fprintf(stderr, "usage: viewer_sample FOLDER\n");
    return 2;
  }
  stillheap::forecast::Result result;
  result.mesh = stillheap::box_mesh();
  result.snapshots.push_back(stillheap::snapshot_of(result.mesh, 0.5, 1.5));
  result.snapshots.push_back(stillheap::snapshot_of(result.mesh, 28.0, 1.2));
  stillheap::forecast::write_fields(result, argv[1]);
  return 0;
}
