#pragma once
#include <string>
#include <vector>

#include "domain/vessel/air_path.hpp"

namespace stillheap::vessel {

/// A pattern with up to two lengths left open: radii of rings, or how far the outermost channels of a grid
/// stand from the middle along x and y. No channel moves farther than the lengths change, which the search
/// for the best lengths builds on.
struct Pattern {
  std::vector<int> rings;     ///< round: channels on each ring, inner first
  bool centre = false;        ///< round: one in the middle
  bool turned = false;        ///< round: the inner ring turned so that its channels stand between the outer ones
  std::vector<int> rows;      ///< rectangular: channels in each row
  bool shifted = false;       ///< rectangular: rows of equal count, every other one shifted by half a spacing
  bool rows_along_y = false;  ///< rectangular: rows run along the width
};

/// Every pattern of this many channels, the simplest first.
[[nodiscard]] std::vector<Pattern> round_patterns(int count);
[[nodiscard]] std::vector<Pattern> rectangular_patterns(int count);

/// The pattern with its open lengths fixed: first and second.
[[nodiscard]] Suggestion lay_out(const Pattern& pattern, double first_m, double second_m, double channel_diameter_m);

/// "five on one ring and one in the middle", "three staggered rows of four, three and four".
[[nodiscard]] std::string words_of(const Pattern& pattern);

}  // namespace stillheap::vessel
