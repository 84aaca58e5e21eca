#pragma once
#include <string>
#include <vector>

#include "present/draw/text.hpp"

namespace stillheap::sheet {

/// One thing seen by two of its numbers, already in the reader's units.
struct ScatterPoint {
  double x = 0.0;
  double y = 0.0;     ///< NaN: not reached; drawn as a cross on the upper edge
  std::string label;  ///< beside the point when there is room; empty: a quiet point without a name
};

/// Many of them against each other. Points with a label stand out.
struct Scatter {
  std::string x_title, y_title;  ///< quantity and unit, "Volume filled, m3"
  std::vector<ScatterPoint> points{};
  bool whole_x = false;  ///< counts: no ticks between whole numbers
  double text_pt = 8.5;
};

/// Draws title, axes and points within the box. Labels that would lie over others are left out.
void draw_scatter(Canvas& canvas, const Box& box, const Scatter& scatter);

}  // namespace stillheap::sheet
