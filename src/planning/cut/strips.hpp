#pragma once
#include <optional>
#include <vector>

/// Cutting rectangles of cloth out of a roll, straight across and straight along (guillotine cuts).
namespace stillheap::cut {

struct Rectangle {
  double length_m = 0.0;  ///< along the roll as given
  double width_m = 0.0;
  int count = 0;
};

/// A piece in its strip, as it lies: x along the roll from the strip's start, y across it.
struct Placed {
  std::size_t want = 0;
  double x_m = 0.0, y_m = 0.0;
  double along_m = 0.0, across_m = 0.0;
};

struct Strip {
  double length_m = 0.0;
  std::vector<Placed> pieces;
};

struct StripCuts {
  std::vector<Strip> strips;
  double length_m = 0.0;       ///< of all strips
  double bound_m = 0.0;        ///< no cutting of this kind takes less
  bool every_pattern = false;  ///< all strips of this kind were weighed against each other
  [[nodiscard]] bool optimal() const noexcept { return length_m - bound_m <= 1e-6 * (1.0 + length_m); }
};

/// The shortest length of roll that gives all pieces, cut in three stages: across the roll into strips, along each
/// strip into columns, across each column into at most three pieces, which may be turned by a quarter. A fourth cut
/// trims pieces that are narrower than their column. Every such strip that could be of use is listed and an integer
/// programme takes the shortest set; two-stage cutting after Gilmore and Gomory 1965 with one stage more.
/// No strip gets longer than `longest_strip_m` (the roll). Nothing when a piece fits neither way. Throws InputError for
/// sizes that are not above 0.
[[nodiscard]] std::optional<StripCuts> cut_strips(double roll_width_m, double longest_strip_m,
                                                  const std::vector<Rectangle>& wants);

}  // namespace stillheap::cut
