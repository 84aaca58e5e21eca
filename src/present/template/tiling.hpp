#pragma once
#include <string>
#include <vector>

#include "domain/vessel/setting_out.hpp"

/// Cutting a drawing at true scale into pages that are glued together again. Pure geometry, metres, y upwards.
namespace stillheap::sheet {

/// What one page can show, and how much of it the next page shows again.
struct TileWindow {
  double width_m = 0.0, height_m = 0.0;
  double overlap_m = 0.0;
};

/// One page: rows count from the top, columns from the left.
struct Tile {
  int row = 0, column = 0;
  vessel::Frame window;
};

struct Tiling {
  int rows = 0, columns = 0;
  TileWindow window;
  std::vector<Tile> tiles;  ///< row by row
};

/// The fewest pages that cover the frame, the pages together centred on it. Throws InputError when the window is not
/// larger than its overlap.
[[nodiscard]] Tiling tile(const vessel::Frame& frame, const TileWindow& window);

/// "A1": rows are letters, from the top (after Z: AA), columns numbers from the left.
[[nodiscard]] std::string tile_name(int row, int column);

/// The four overlap marks of a page, in the middle of its overlap strips where they cross: neighbours show the same
/// ones. Order: low left, low right, high left, high right.
[[nodiscard]] std::vector<Point> overlap_marks(const Tiling& tiling, const Tile& tile);

}  // namespace stillheap::sheet
