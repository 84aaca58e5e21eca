#include "domain/vessel/base.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "core/base/constants.hpp"
#include "domain/vessel/clash.hpp"
#include "domain/vessel/ground.hpp"

namespace stillheap::vessel {
namespace {

constexpr double step_m = 0.005;
constexpr int most_more_bearers = 8;    // chosen: tried beyond what the spacing asks for
constexpr double clear_first_m2 = 1e3;  // a covered share outweighs every squared distance

bool is_round(const Design& design) { return design.footprint == Footprint::round; }
double along_x_m(const Design& design) { return is_round(design) ? design.diameter_m : design.length_m; }
double along_y_m(const Design& design) { return is_round(design) ? design.diameter_m : design.width_m; }
double disc_m2(double diameter_m) { return constant::pi / 4.0 * diameter_m * diameter_m; }

/// Along which the bearers follow one another.
double run_m(const Design& design) { return slats_along_x(design) ? along_x_m(design) : along_y_m(design); }

Slat bearer_at(const Design& design, double offset_m, double width_m) {
  return strip_across(design, !slats_along_x(design), offset_m, width_m);
}

double place_of(const Design& design, const Slat& bearer) {
  return slats_along_x(design) ? bearer.from.x_m : bearer.from.y_m;
}

/// Footprint between two lines across the run.
double area_between_m2(const Design& design, double low_m, double high_m) {
  if (!is_round(design)) return (high_m - low_m) * (slats_along_x(design) ? along_y_m(design) : along_x_m(design));
  const double r = 0.5 * design.diameter_m;
  const auto below = [r](double x) {
    const double at = std::clamp(x, -r, r);
    return at * std::sqrt(std::max(0.0, r * r - at * at)) + r * r * std::asin(at / r);
  };
  return below(high_m) - below(low_m);
}

/// Covered shares of all holes, each hole opened by the clearance.
double in_the_way(const Design& design, double offset_m, double width_m) {
  const Slat bearer = bearer_at(design, offset_m, width_m);
  double sum = 0.0;
  for (Channel hole : design.channels) {
    hole.diameter_m += 2.0 * bearer_clearance_m;
    sum += covered_area_m2(hole, bearer) / disc_m2(hole.diameter_m);
  }
  return sum < 1e-9 ? 0.0 : sum;
}

/// Places that bearers may stand at, rising, the outer ones flush, with what each would cover.
struct Places {
  std::vector<double> at_m;
  std::vector<double> covers;
};

Places places_of(const Design& design, double width_m) {
  Places places;
  const double edge = 0.5 * (run_m(design) - width_m);
  places.at_m.push_back(-edge);
  for (int i = static_cast<int>(std::ceil(-edge / step_m + 0.5)); i * step_m < edge - 0.5 * step_m; ++i) {
    places.at_m.push_back(i * step_m);
  }
  places.at_m.push_back(edge);
  for (const double at : places.at_m) places.covers.push_back(in_the_way(design, at, width_m));
  return places;
}

/// The best places of `count` bearers, the first and the last fixed; empty when the distances do not allow it.
std::vector<double> best_places(const Places& places, int count, double least_m, double most_m) {
  const std::size_t n = places.at_m.size();
  constexpr double never = std::numeric_limits<double>::infinity();
  std::vector<std::vector<std::size_t>> from(static_cast<std::size_t>(count), std::vector<std::size_t>(n, 0));
  std::vector<double> cost(n, never);
  cost[0] = 0.0;
  for (int k = 1; k < count; ++k) {
    std::vector<double> next(n, never);
    for (std::size_t j = 1; j < n; ++j) {
      for (std::size_t i = j; i-- > 0;) {
        const double apart = places.at_m[j] - places.at_m[i];
        if (apart < least_m - 1e-9 || cost[i] == never) continue;
        if (apart > most_m + 1e-9) break;
        const double sum = cost[i] + apart * apart + clear_first_m2 * places.covers[j];
        if (sum >= next[j]) continue;
        next[j] = sum;
        from[static_cast<std::size_t>(k)][j] = i;
      }
    }
    cost = std::move(next);
  }
  if (cost[n - 1] == never) return {};
  std::vector<double> found(static_cast<std::size_t>(count));
  std::size_t at = n - 1;
  for (int k = count; k-- > 0;) {
    found[static_cast<std::size_t>(k)] = places.at_m[at];
    at = from[static_cast<std::size_t>(k)][at];
  }
  return found;
}

double covered_by_all(const Design& design) {
  double sum = 0.0;
  for (const Channel& channel : design.channels) sum += covered_by_bearers(design, channel);
  return sum;
}

/// How good a layout is: what the ground bears first, open holes second, few bearers third.
struct Score {
  double over_bearing = 0.0;  ///< 0: holds
  double covered = 0.0;
  [[nodiscard]] bool better_than(const Score& other) const {
    if (std::abs(over_bearing - other.over_bearing) > 1e-9) return over_bearing < other.over_bearing;
    return covered < other.covered - 1e-9;
  }
};

Score score_of(const Design& design, const BearerWish& wish) {
  Score score;
  if (wish.ground_bears_pa > 0.0) {
    const double pressure = wish.mean_pressure_pa * bearer_over_mean(design);
    score.over_bearing = std::max(0.0, pressure / wish.ground_bears_pa - 1.0);
  }
  score.covered = covered_by_all(design);
  return score;
}

/// How far from the hole's middle a seat must reach on one side to lap whole slats; nothing when there are none.
/// `slats` holds the stretches of wood on that side, as distances from the middle, rising.
std::optional<double> reach_m(const std::vector<std::pair<double, double>>& slats, double radius_m) {
  double lapped = 0.0;
  for (const auto& [near, far] : slats) {
    const double begin = std::max(near, radius_m);
    if (far <= begin) continue;
    if (lapped + far - begin >= seat_lap_m) return begin + seat_lap_m - lapped;
    lapped += far - begin;
  }
  return std::nullopt;
}

/// Wood of the deck on one side of a hole, across the slats.
std::vector<std::pair<double, double>> wood_beside(const Design& design, const Channel& channel, double side) {
  const bool along_x = slats_along_x(design);
  const double middle = along_x ? channel.centre.y_m : channel.centre.x_m;
  std::vector<std::pair<double, double>> wood;
  for (const Slat& slat : design.slats) {
    const double at = side * ((along_x ? slat.from.y_m : slat.from.x_m) - middle);
    if (at + 0.5 * slat.width_m > 0.0)
      wood.emplace_back(std::max(0.0, at - 0.5 * slat.width_m), at + 0.5 * slat.width_m);
  }
  std::sort(wood.begin(), wood.end());
  return wood;
}

/// How a hole meets the slats: how many it cuts through, and whether it lies within one that stays whole.
struct Meeting {
  int cut = 0;
  bool within_one = false;
};

Meeting meeting_of(const Design& design, const Channel& channel) {
  Meeting meeting;
  const bool along_x = slats_along_x(design);
  const double radius = 0.5 * channel.diameter_m;
  for (const Slat& slat : design.slats) {
    const double off = std::abs((along_x ? slat.from.y_m - channel.centre.y_m : slat.from.x_m - channel.centre.x_m));
    const double half = 0.5 * slat.width_m;
    if (off - half >= radius || covered_area_m2(channel, slat) <= 0.0) continue;
    const double left_near = half - off - radius;                // wood on the side the hole leans to
    const double left_far = std::max(half + off - radius, 0.0);  // and on the other
    if (std::max(left_near, left_far) < least_wood_left_m) ++meeting.cut;
    meeting.within_one |= std::min(left_near, left_far) >= least_wood_left_m;
  }
  return meeting;
}

/// Half the seat's length along the slats on one side: to the lap, or to the face of a nearer bearer.
double along_slats_m(const Design& design, const Channel& channel, double side) {
  const double wanted = 0.5 * channel.diameter_m + seat_lap_m;
  const double middle = slats_along_x(design) ? channel.centre.x_m : channel.centre.y_m;
  double free = wanted;
  for (const Slat& bearer : design.bearers) {
    const double face = side * (place_of(design, bearer) - middle) - 0.5 * bearer.width_m;
    if (face > 0.0) free = std::min(free, face);
  }
  return free;
}

}  // namespace

Slat strip_across(const Design& design, bool along_x, double offset_m, double width_m) noexcept {
  double half_m = (along_x ? design.length_m : design.width_m) / 2.0;
  if (is_round(design)) {
    const double radius_m = design.diameter_m / 2.0;
    const double inner_m = std::max(std::abs(offset_m) - width_m / 2.0, 0.0);
    half_m = std::sqrt(std::max(radius_m * radius_m - inner_m * inner_m, 0.0));
  }
  if (along_x) return {{-half_m, offset_m}, {half_m, offset_m}, width_m};
  return {{offset_m, -half_m}, {offset_m, half_m}, width_m};
}

bool slats_along_x(const Design& design) noexcept {
  if (design.slats.empty()) return true;
  const Slat& slat = design.slats.front();
  return std::abs(slat.to.x_m - slat.from.x_m) >= std::abs(slat.to.y_m - slat.from.y_m);
}

std::vector<Slat> lay_bearers(const Design& design, const BearerWish& wish) {
  if (!design.base_open || design.base_gap_m <= 0.0 || run_m(design) <= 2.0 * wish.width_m) return {};
  const Places places = places_of(design, wish.width_m);
  const double least_m = std::min(wish.width_m + least_between_bearers_m, run_m(design) - wish.width_m);
  const int fewest = bearer_count(run_m(design) - wish.width_m, wish.most_spacing_m);
  Design best, trial = design;
  Score best_score;
  for (int count = std::max(2, fewest); count <= fewest + most_more_bearers; ++count) {
    trial.bearers.clear();
    for (const double at : best_places(places, count, least_m, wish.most_spacing_m)) {
      trial.bearers.push_back(bearer_at(design, at, wish.width_m));
    }
    if (trial.bearers.empty()) continue;
    const Score score = score_of(trial, wish);
    if (!best.bearers.empty() && !score.better_than(best_score)) continue;
    best.bearers = trial.bearers;
    best_score = score;
    if (score.over_bearing == 0.0 && score.covered == 0.0) break;
  }
  return best.bearers;
}

Design with_base(Design design, const BearerWish& wish) {
  design.bearers = lay_bearers(design, wish);
  for (Channel& channel : design.channels) {
    channel.base_covered_share =
        design.base_open ? std::min(1.0, covered_by_bearers(design, channel) + covered_by_stop(channel)) : 0.0;
  }
  return design;
}

double bearer_over_mean(const Design& design) noexcept {
  double most = 0.0;
  const std::vector<Slat>& bearers = design.bearers;
  const double edge = 0.5 * run_m(design);
  for (std::size_t i = 0; i < bearers.size(); ++i) {
    const double at = place_of(design, bearers[i]);
    const double low = i == 0 ? -edge : 0.5 * (place_of(design, bearers[i - 1]) + at);
    const double high = i + 1 == bearers.size() ? edge : 0.5 * (place_of(design, bearers[i + 1]) + at);
    const double own = distance_m(bearers[i].from, bearers[i].to) * bearers[i].width_m;
    if (own > 0.0) most = std::max(most, area_between_m2(design, low, high) / own);
  }
  return most;
}

std::vector<double> bearer_places_m(const Design& design) {
  std::vector<double> places;
  for (const Slat& bearer : design.bearers) places.push_back(place_of(design, bearer) + 0.5 * run_m(design));
  std::sort(places.begin(), places.end());
  return places;
}

double covered_by_bearers(const Design& design, const Channel& channel) noexcept {
  double covered = 0.0;
  for (const Slat& bearer : design.bearers) covered += covered_area_m2(channel, bearer);
  const double share = covered / disc_m2(channel.diameter_m);
  return share < 1e-9 ? 0.0 : std::min(1.0, share);  // rounding of the overlap is no cover
}

double covered_by_stop(const Channel& channel) noexcept {
  const double half = 0.5 * channel.diameter_m + stop_rod_beyond_m;
  const Slat rod{
      {channel.centre.x_m - half, channel.centre.y_m}, {channel.centre.x_m + half, channel.centre.y_m}, stop_rod_m};
  return std::min(1.0, covered_area_m2(channel, rod) / disc_m2(channel.diameter_m));
}

double mean_mouth_covered(const Design& design) noexcept {
  double sum = 0.0;
  for (const Channel& channel : design.channels) sum += channel.base_covered_share;
  return design.channels.empty() ? 0.0 : sum / static_cast<double>(design.channels.size());
}

std::vector<Seat> seats_of(const Design& design) {
  std::vector<Seat> seats;
  if (!design.base_open || design.slats.empty()) return seats;
  const bool along_x = slats_along_x(design);
  for (std::size_t i = 0; i < design.channels.size(); ++i) {
    const Channel& channel = design.channels[i];
    const Meeting meeting = meeting_of(design, channel);
    if (meeting.within_one) continue;
    const double radius = 0.5 * channel.diameter_m;
    Seat seat{i, {}, meeting.cut};
    double reach[2], length[2];
    for (const int s : {0, 1}) {
      const double side = s == 0 ? -1.0 : 1.0;
      const auto across = reach_m(wood_beside(design, channel, side), radius);
      seat.short_of |= !across;
      reach[s] = across.value_or(radius + seat_lap_m);
      length[s] = along_slats_m(design, channel, side);
    }
    const Point c = channel.centre;
    seat.board = along_x ? Frame{c.x_m - length[0], c.y_m - reach[0], c.x_m + length[1], c.y_m + reach[1]}
                         : Frame{c.x_m - reach[0], c.y_m - length[0], c.x_m + reach[1], c.y_m + length[1]};
    seats.push_back(seat);
  }
  return seats;
}

double form_length_m(const Design& design, const Allowances& allowances) noexcept {
  return design.height_m + allowances.form_handhold_m + (design.base_open ? deck_thickness_m : 0.0);
}

}  // namespace stillheap::vessel
