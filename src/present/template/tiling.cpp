#include "present/template/tiling.hpp"

#include <cmath>

#include "core/base/error.hpp"

namespace stillheap::sheet {
namespace {

int pages_along(double length_m, double window_m, double overlap_m) {
  if (length_m <= window_m) return 1;
  return static_cast<int>(std::ceil((length_m - overlap_m) / (window_m - overlap_m) - 1e-9));
}

}  // namespace

Tiling tile(const vessel::Frame& frame, const TileWindow& window) {
  if (!(window.overlap_m >= 0.0) || window.width_m <= window.overlap_m || window.height_m <= window.overlap_m) {
    throw InputError("template", "the page is not larger than the overlap", "choose a larger paper");
  }
  Tiling tiling;
  tiling.window = window;
  tiling.columns = pages_along(frame.width_m(), window.width_m, window.overlap_m);
  tiling.rows = pages_along(frame.height_m(), window.height_m, window.overlap_m);
  const double step_x = window.width_m - window.overlap_m;
  const double step_y = window.height_m - window.overlap_m;
  const double left = 0.5 * (frame.left_m + frame.right_m - (tiling.columns * step_x + window.overlap_m));
  const double high = 0.5 * (frame.low_m + frame.high_m + (tiling.rows * step_y + window.overlap_m));
  for (int row = 0; row < tiling.rows; ++row) {
    for (int column = 0; column < tiling.columns; ++column) {
      const double x = left + column * step_x;
      const double y = high - row * step_y;
      tiling.tiles.push_back({row, column, {x, y - window.height_m, x + window.width_m, y}});
    }
  }
  return tiling;
}

std::string tile_name(int row, int column) {
  std::string letters;
  for (int rest = row; rest >= 0; rest = rest / 26 - 1) {
    letters.insert(letters.begin(), static_cast<char>('A' + rest % 26));
  }
  return letters + std::to_string(column + 1);
}

std::vector<Point> overlap_marks(const Tiling& tiling, const Tile& tile) {
  const double in = 0.5 * tiling.window.overlap_m;
  const vessel::Frame& w = tile.window;
  return {{w.left_m + in, w.low_m + in},
          {w.right_m - in, w.low_m + in},
          {w.left_m + in, w.high_m - in},
          {w.right_m - in, w.high_m - in}};
}

}  // namespace stillheap::sheet
