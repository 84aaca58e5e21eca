#include "domain/vessel/pattern.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

std::string count_word(int count) {
  static constexpr std::array<const char*, 13> words{"no",    "one",   "two",  "three", "four",   "five",  "six",
                                                     "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return count >= 0 && count <= 12 ? words[static_cast<std::size_t>(count)] : std::to_string(count);
}

std::string words_of_rings(const Pattern& pattern) {
  const std::string middle = pattern.centre ? "one in the middle" : "";
  if (pattern.rings.empty()) return pattern.centre ? middle : "no channel";
  if (pattern.rings.size() == 1)
    return count_word(pattern.rings[0]) + " on one ring" + (pattern.centre ? " and " + middle : "");
  return count_word(pattern.rings[0]) + " on an inner ring" + (pattern.centre ? ", " : " and ") +
         count_word(pattern.rings[1]) + " on an outer ring" + (pattern.centre ? " and " + middle : "");
}

std::string words_of_rows(const Pattern& pattern) {
  const std::string run = pattern.rows_along_y ? " along the width" : " along the length";
  const std::size_t rows = pattern.rows.size();
  if (rows == 1 && pattern.rows[0] == 1) return "one in the middle";
  if (rows == 1) return "one row of " + count_word(pattern.rows[0]) + run;
  const std::string head = count_word(static_cast<int>(rows));
  const bool even = std::all_of(pattern.rows.begin(), pattern.rows.end(), [&](int n) { return n == pattern.rows[0]; });
  if (even && !pattern.shifted) return head + " rows of " + count_word(pattern.rows[0]) + run;
  if (even) return head + " staggered rows of " + count_word(pattern.rows[0]) + run;
  std::string text = head + " staggered rows of ";
  for (std::size_t i = 0; i < rows; ++i) {
    if (i > 0) text += i + 1 == rows ? " and " : ", ";
    text += count_word(pattern.rows[i]);
  }
  return text + run;
}

Suggestion lay_out_rings(const Pattern& pattern, double inner_m, double outer_m, double diameter_m) {
  Suggestion laid;
  laid.centre = pattern.centre;
  if (pattern.rings.size() == 1) laid.rings = {{pattern.rings[0], inner_m, 0.0}};
  if (pattern.rings.size() == 2) {
    // Turning the inner ring by half of the angle at which the two repeat puts it as far between as it can be.
    const double turn = pattern.turned ? constant::pi / std::lcm(pattern.rings[0], pattern.rings[1]) : 0.0;
    laid.rings = {{pattern.rings[0], inner_m, turn}, {pattern.rings[1], outer_m, 0.0}};
  }
  if (laid.rings.size() == 1) laid.ring = laid.rings[0];
  if (pattern.centre) laid.channels.push_back({{0.0, 0.0}, diameter_m});
  for (const Ring& ring : laid.rings) {
    const std::vector<Channel> more = ring_channels(ring, diameter_m, false);
    laid.channels.insert(laid.channels.end(), more.begin(), more.end());
  }
  return laid;
}

Suggestion lay_out_rows(const Pattern& pattern, double x_m, double y_m, double diameter_m) {
  const double along = pattern.rows_along_y ? y_m : x_m;
  const double across = pattern.rows_along_y ? x_m : y_m;
  const int longest = *std::max_element(pattern.rows.begin(), pattern.rows.end());
  const int rows = static_cast<int>(pattern.rows.size());
  // Spacings from the place of the outermost channel; a shifted row reaches a quarter of a spacing farther.
  const double reach = (longest - 1) / 2.0 + (pattern.shifted ? 0.25 : 0.0);
  const double spacing = reach > 0.0 ? along / reach : 0.0;
  const double row_spacing = rows > 1 ? across / ((rows - 1) / 2.0) : 0.0;
  Suggestion laid;
  for (int j = 0; j < rows; ++j) {
    const int count = pattern.rows[static_cast<std::size_t>(j)];
    const double shift = pattern.shifted ? (j % 2 == 0 ? -0.25 : 0.25) * spacing : 0.0;
    for (int i = 0; i < count; ++i) {
      const double u = (i - (count - 1) / 2.0) * spacing + shift;
      const double v = (j - (rows - 1) / 2.0) * row_spacing;
      laid.channels.push_back({pattern.rows_along_y ? Point{v, u} : Point{u, v}, diameter_m});
    }
  }
  laid.spacing_x_m = pattern.rows_along_y ? row_spacing : spacing;
  laid.spacing_y_m = pattern.rows_along_y ? spacing : row_spacing;
  return laid;
}

std::vector<int> equal_rows(int rows, int count) {
  std::vector<int> equal(static_cast<std::size_t>(rows));
  std::fill(equal.begin(), equal.end(), count / rows);
  return equal;
}

void add_rows(const std::vector<int>& rows, bool shifted, std::vector<Pattern>& patterns) {
  for (const bool along_y : {false, true}) {
    Pattern pattern;
    pattern.rows = rows;
    pattern.shifted = shifted;
    pattern.rows_along_y = along_y;
    // A plain grid is the same seen from either side; single rows are kept in both directions.
    if (along_y && !shifted && rows.size() > 1 && rows[0] == rows[1]) continue;
    if (along_y && rows.size() == 1 && rows[0] == 1) continue;
    patterns.push_back(pattern);
  }
}

}  // namespace

std::vector<Pattern> round_patterns(int count) {
  std::vector<Pattern> patterns;
  for (const int middle : {1, 0}) {
    Pattern pattern;
    pattern.centre = middle == 1;
    const int around = count - middle;
    if (around != 0) pattern.rings = {around};
    if (around == 0 || around >= 2) patterns.push_back(pattern);
  }
  for (const int middle : {1, 0}) {
    for (int inner = 2; 2 * inner <= count - middle; ++inner) {
      for (const bool turned : {false, true}) {
        Pattern pattern;
        pattern.centre = middle == 1;
        pattern.rings = {inner, count - middle - inner};
        pattern.turned = turned;
        patterns.push_back(pattern);
      }
    }
  }
  return patterns;
}

std::vector<Pattern> rectangular_patterns(int count) {
  std::vector<Pattern> patterns;
  // A column of single channels is a row along the width, which add_rows adds too.
  for (int rows = 1; rows <= count; ++rows) {
    const bool column = rows == count && count > 1;
    if (count % rows == 0 && !column) add_rows(equal_rows(rows, count), false, patterns);
  }
  for (int rows = 2; rows <= count; ++rows) {
    if (count % rows == 0) add_rows(equal_rows(rows, count), true, patterns);
    for (const int first_more : {1, -1}) {
      // Rows alternate between n and n - first_more channels, beginning with n.
      const int others = rows / 2;
      if ((count + first_more * others) % rows != 0) continue;
      const int first = (count + first_more * others) / rows;
      if (first < 1 || first - first_more < 1) continue;
      std::vector<int> alternate(static_cast<std::size_t>(rows), first);
      for (std::size_t j = 1; j < alternate.size(); j += 2) alternate[j] = first - first_more;
      add_rows(alternate, false, patterns);
    }
  }
  return patterns;
}

Suggestion lay_out(const Pattern& pattern, double first_m, double second_m, double channel_diameter_m) {
  Suggestion laid = pattern.rows.empty() ? lay_out_rings(pattern, first_m, second_m, channel_diameter_m)
                                         : lay_out_rows(pattern, first_m, second_m, channel_diameter_m);
  laid.words = words_of(pattern);
  return laid;
}

std::string words_of(const Pattern& pattern) {
  return pattern.rows.empty() ? words_of_rings(pattern) : words_of_rows(pattern);
}

}  // namespace stillheap::vessel
