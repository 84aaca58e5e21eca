// Fewest channels first. For each pattern of a count the two open lengths are searched by bisection with a
// bound: the longest path changes by no more than the channels move, so a box of lengths whose middle misses
// the limit by more than half its diagonal holds no answer and is dropped. What is left is refined to
// `smallest_box_m` and polished by a compass search. Only layouts that may hold are measured exactly: the
// farthest of some witness points already proves most of the others bad, and bounds their boxes.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <queue>
#include <utility>

#include "core/base/constants.hpp"
#include "core/base/error.hpp"
#include "domain/vessel/air_path.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/pattern.hpp"

namespace stillheap::vessel {
namespace {

constexpr double smallest_box_m = 0.004;  // chosen: finer than pipes can be set
constexpr double finest_step_m = 0.0002;  // chosen: end of the polish
constexpr double worth_a_change = 0.02;   // chosen: a less simple pattern must be better by this share of the limit
constexpr double least_gap_m = 0.02;      // as find_clashes takes by default

struct Box {
  double first_m = 0.0;  ///< middle
  double second_m = 0.0;
  double half_first_m = 0.0;
  double half_second_m = 0.0;
  double bound_m = 0.0;  ///< no lengths in the box give a path shorter than this
  [[nodiscard]] double reach_m() const noexcept { return std::hypot(half_first_m, half_second_m); }
};

struct Found {
  Suggestion suggestion;
  double first_m = 0.0;
  double second_m = 0.0;
  double length_m = 0.0;
};

/// Points spread over the footprint.
std::vector<Point> witnesses_of(const Design& design) {
  constexpr int across = 32;  // chosen: quick to try, dense enough to catch most bad layouts
  const bool round = design.footprint == Footprint::round;
  const double half_x = (round ? design.diameter_m : design.length_m) / 2.0;
  const double half_y = (round ? design.diameter_m : design.width_m) / 2.0;
  std::vector<Point> points;
  for (int i = 0; i <= across; ++i) {
    for (int j = 0; j <= across; ++j) {
      const Point p{half_x * (2.0 * i / across - 1.0), half_y * (2.0 * j / across - 1.0)};
      if (!round || distance_m(p, {}) <= half_x) points.push_back(p);
    }
  }
  return points;
}

/// Channels of one width, as a search lays them out: one root a point.
double distance_to_air_m(const Design& design, Point p, double channel_diameter_m) {
  double nearest_squared = std::numeric_limits<double>::infinity();
  for (const Channel& channel : design.channels) {
    const double x = p.x_m - channel.centre.x_m;
    const double y = p.y_m - channel.centre.y_m;
    nearest_squared = std::min(nearest_squared, x * x + y * y);
  }
  const double channel = std::sqrt(nearest_squared) - channel_diameter_m / 2.0;
  if (design.wall == Wall::closed) return channel;
  if (design.footprint == Footprint::round) return std::min(channel, design.diameter_m / 2.0 - distance_m(p, {}));
  return std::min({channel, design.length_m / 2.0 - std::abs(p.x_m), design.width_m / 2.0 - std::abs(p.y_m)});
}

/// Tries one pattern in one vessel.
class Search {
 public:
  Search(const Design& vessel, const Pattern& pattern, double channel_diameter_m, const std::vector<Point>& witnesses)
      : design_(vessel), pattern_(pattern), diameter_m_(channel_diameter_m), witnesses_(witnesses) {}

  /// Sets the lengths and measures: exact up to `enough_m`; beyond it some distance that does occur.
  double length_m(double first_m, double second_m, double enough_m) {
    laid_ = lay_out(pattern_, first_m, second_m, diameter_m_);
    design_.channels = laid_.channels;
    double seen = 0.0;
    for (const Point p : witnesses_) seen = std::max(seen, distance_to_air_m(design_, p, diameter_m_));
    return seen > enough_m ? seen : plan_length_m(design_, enough_m);
  }

  [[nodiscard]] bool refused() const {
    const std::vector<Clash> clashes = find_clashes(design_, least_gap_m);
    return std::any_of(clashes.begin(), clashes.end(), [](const Clash& clash) { return clash.refused; });
  }

  [[nodiscard]] const Suggestion& laid() const noexcept { return laid_; }
  [[nodiscard]] AirPath path() const { return longest_air_path(design_); }

 private:
  Design design_;
  const Pattern& pattern_;
  double diameter_m_;
  const std::vector<Point>& witnesses_;
  Suggestion laid_;
};

Box whole_box(const Design& design, const Pattern& pattern, double diameter_m) {
  Box box;
  if (pattern.rows.empty()) {
    const double most = largest_ring_radius_m(design.diameter_m, diameter_m, least_gap_m);
    if (!pattern.rings.empty()) box.first_m = box.half_first_m = most / 2.0;
    if (pattern.rings.size() == 2) box.second_m = box.half_second_m = most / 2.0;
    return box;
  }
  const int longest = *std::max_element(pattern.rows.begin(), pattern.rows.end());
  const bool along_open = longest > 1 || pattern.shifted;
  const bool across_open = pattern.rows.size() > 1;
  const double most_x = largest_ring_radius_m(design.length_m, diameter_m, least_gap_m);
  const double most_y = largest_ring_radius_m(design.width_m, diameter_m, least_gap_m);
  if (pattern.rows_along_y ? across_open : along_open) box.first_m = box.half_first_m = most_x / 2.0;
  if (pattern.rows_along_y ? along_open : across_open) box.second_m = box.half_second_m = most_y / 2.0;
  return box;
}

/// Halves the longer side.
std::pair<Box, Box> halves(const Box& box) {
  Box low = box;
  Box high = box;
  if (box.half_first_m >= box.half_second_m) {
    low.half_first_m = high.half_first_m = box.half_first_m / 2.0;
    low.first_m -= low.half_first_m;
    high.first_m += high.half_first_m;
  } else {
    low.half_second_m = high.half_second_m = box.half_second_m / 2.0;
    low.second_m -= low.half_second_m;
    high.second_m += high.half_second_m;
  }
  return {low, high};
}

/// Looks at a place; keeps it when it is the shortest so far and nothing clashes. Returns the measured length.
double look(Search& search, double first_m, double second_m, double enough_m, std::optional<Found>& best) {
  const double length = search.length_m(first_m, second_m, enough_m);
  if (length <= enough_m && (!best || length < best->length_m) && !search.refused())
    best = Found{search.laid(), first_m, second_m, length};
  return length;
}

void polish(Search& search, const Box& whole, Found& found) {
  static constexpr std::array<std::pair<int, int>, 8> directions{
      {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}};
  std::optional<Found> best = found;
  for (double step = smallest_box_m; step > finest_step_m;) {
    const Found from = *best;
    for (const auto& [a, b] : directions) {
      const double first = from.first_m + a * step;
      const double second = from.second_m + b * step;
      if (std::abs(first - whole.first_m) > whole.half_first_m ||
          std::abs(second - whole.second_m) > whole.half_second_m)
        continue;
      look(search, first, second, best->length_m, best);
    }
    if (best->length_m >= from.length_m) step /= 2.0;
  }
  found = *best;
}

/// The shortest path of a pattern if it is within `limit_m`; nothing otherwise.
std::optional<Found> best_of(const Design& design, const Pattern& pattern, double diameter_m, double limit_m,
                             const std::vector<Point>& witnesses) {
  Search search(design, pattern, diameter_m, witnesses);
  const Box whole = whole_box(design, pattern, diameter_m);
  const auto later = [](const Box& a, const Box& b) { return a.bound_m > b.bound_m; };
  std::priority_queue<Box, std::vector<Box>, decltype(later)> boxes(later);
  std::optional<Found> best;
  boxes.push(whole);
  while (!boxes.empty()) {
    Box box = boxes.top();
    boxes.pop();
    // A box must promise a gain that is worth it, else the flat bottom would be searched to the millimetre.
    const double wanted = best ? std::min(best->length_m - smallest_box_m, limit_m) : limit_m;
    if (box.bound_m > wanted) break;
    const double reach = box.reach_m();
    // Small boxes that just miss may still hold an answer: their middle is a start for the polish.
    const double enough = reach <= smallest_box_m ? wanted + reach : wanted;
    const double length = look(search, box.first_m, box.second_m, enough, best);
    if (reach <= smallest_box_m || length - reach > wanted) continue;
    box.bound_m = length - reach;
    const auto [low, high] = halves(box);
    boxes.push(low);
    boxes.push(high);
  }
  if (!best) return std::nullopt;
  polish(search, whole, *best);
  if (best->length_m > limit_m) return std::nullopt;
  static_cast<void>(search.length_m(best->first_m, best->second_m, limit_m));
  best->suggestion = search.laid();
  best->suggestion.path = search.path();
  return best;
}

/// Each channel serves at most a disc of its radius plus the limit, an open wall a border as deep as the
/// limit. Fewer channels than this cannot cover the footprint.
int fewest_by_area(const Design& design, double limit_m, double diameter_m) {
  const double border = design.wall == Wall::open ? limit_m : 0.0;
  const double served = constant::pi * std::pow(diameter_m / 2.0 + limit_m, 2);
  const double inner =
      design.footprint == Footprint::round
          ? constant::pi * std::pow(std::max(design.diameter_m / 2.0 - border, 0.0), 2)
          : std::max(design.length_m - 2.0 * border, 0.0) * std::max(design.width_m - 2.0 * border, 0.0);
  // Rounding must not ask for one more than needed.
  return static_cast<int>(std::ceil(std::min(inner / served, 1e6) - 1e-9));
}

void check(double limit_m, double channel_diameter_m) {
  if (!(limit_m > 0.0))
    throw InputError("vessel", "the wanted longest air path is not above zero", "give a length above zero");
  if (!(channel_diameter_m > 0.0))
    throw InputError("vessel", "the width of the channels is not above zero", "give a diameter above zero");
}

}  // namespace

std::optional<Suggestion> suggest_channels(const Design& design, double limit_m, double channel_diameter_m, int most) {
  check(limit_m, channel_diameter_m);
  Design bare = design;
  bare.channels.clear();
  const AirPath without = longest_air_path(bare);
  if (without.length_m <= limit_m) {
    Suggestion none;
    none.path = without;
    none.words = words_of({});
    return none;
  }
  const bool round = design.footprint == Footprint::round;
  const std::vector<Point> witnesses = witnesses_of(bare);
  for (int count = std::max(fewest_by_area(design, limit_m, channel_diameter_m), 1); count <= most; ++count) {
    std::optional<Found> best;
    for (const Pattern& pattern : round ? round_patterns(count) : rectangular_patterns(count)) {
      const double wanted = best ? best->length_m - worth_a_change * limit_m : limit_m;
      std::optional<Found> found = best_of(bare, pattern, channel_diameter_m, wanted, witnesses);
      if (found) best = std::move(found);
    }
    if (best) return best->suggestion;
  }
  return std::nullopt;
}

}  // namespace stillheap::vessel
