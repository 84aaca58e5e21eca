// The longest way to air. In space the distance of a point is the smaller of its distance in plan (to channel
// surfaces and open walls, which stand upright) and of its distance to the top or the open base. The two vary
// independently, so the greatest of the smaller is the smaller of the greatest, and only the plan needs
// geometry.
//
// In plan the distance to the nearest boundary is the lower envelope of simple functions. Away from the wall's
// centre each is smooth with slope 1, so at an interior peak of the envelope the slopes of the boundaries that
// share it must surround zero: three of them, or two in opposition. Two in opposition is a peak only between
// a round wall and a channel (two channels, or a channel and a straight wall, have a saddle there; two parallel
// walls have a ridge, whose ends are met by a third boundary). On a closed wall the peaks along the wall count:
// where two boundaries meet, at corners, and on a round wall opposite a channel.
// So the candidates below contain the peak. The true distance is measured at each, so surplus candidates are
// harmless and no tolerance decides which is a vertex.
#include "domain/vessel/air_path.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "core/base/constants.hpp"
#include "domain/vessel/equidistant.hpp"

namespace stillheap::vessel {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
// Candidates on a closed wall are off it by rounding; this much outside still counts as on it.
constexpr double rounding = 1e-9;

std::array<ClosedLine, 4> sides_of(const Design& design) {
  const double l = design.length_m / 2.0;
  const double w = design.width_m / 2.0;
  return {{{{1.0, 0.0}, l}, {{-1.0, 0.0}, l}, {{0.0, 1.0}, w}, {{0.0, -1.0}, w}}};
}

std::vector<Site> sites_of(const Design& design) {
  std::vector<Site> sites;
  for (const Channel& channel : design.channels)
    sites.push_back({Site::Kind::channel, channel.centre, channel.diameter_m / 2.0});
  if (design.wall == Wall::closed) return sites;
  if (design.footprint == Footprint::round) {
    sites.push_back({Site::Kind::round_wall, {}, design.diameter_m / 2.0});
  } else {
    for (const ClosedLine& side : sides_of(design))
      sites.push_back({Site::Kind::straight_wall, side.normal, side.offset_m});
  }
  return sites;
}

bool in_footprint(const Design& design, Point p) noexcept {
  if (design.footprint == Footprint::round)
    return distance_m(p, {}) <= design.diameter_m / 2.0 + rounding * design.diameter_m;
  return std::abs(p.x_m) <= design.length_m / 2.0 + rounding * design.length_m &&
         std::abs(p.y_m) <= design.width_m / 2.0 + rounding * design.width_m;
}

/// The best point so far; offers are measured and dropped as soon as one boundary is nearer.
class Peak {
 public:
  Peak(const Design& design, const std::vector<Site>& sites, double enough_m)
      : design_(design), sites_(sites), enough_m_(enough_m) {}

  void offer(Point p) {
    if (!in_footprint(design_, p)) return;
    double nearest = infinity;
    for (const Site& site : sites_) {
      nearest = std::min(nearest, distance_to_m(site, p));
      if (nearest <= length_m_) return;
    }
    length_m_ = nearest;
    where_ = p;
  }

  void offer_all(std::vector<Point>& points) {
    for (const Point p : points) offer(p);
    points.clear();
  }

  [[nodiscard]] bool enough() const noexcept { return length_m_ > enough_m_; }
  [[nodiscard]] double length_m() const noexcept { return length_m_; }
  [[nodiscard]] Point where() const noexcept { return where_; }

 private:
  const Design& design_;
  const std::vector<Site>& sites_;
  double enough_m_;
  double length_m_ = 0.0;
  Point where_;
};

/// Points of the line through the middle and a channel's middle: opposite a channel on a closed round wall, or
/// where wall and channel face each other, |p| + |p - c| = R + r, across the middle.
void offer_opposite(const Design& design, const Site& channel, Peak& peak) {
  const double off_centre = distance_m(channel.centre, {});
  const Point away = off_centre > 0.0 ? Point{-channel.centre.x_m / off_centre, -channel.centre.y_m / off_centre}
                                      : Point{1.0, 0.0};  // concentric: the same all round
  const double wall = design.diameter_m / 2.0;
  const double radius = design.wall == Wall::closed ? wall : (wall + channel.radius_m - off_centre) / 2.0;
  peak.offer({radius * away.x_m, radius * away.y_m});
}

void offer_round_wall(const Design& design, const std::vector<Site>& sites, Peak& peak) {
  peak.offer({});
  std::vector<Point> points;
  for (std::size_t i = 0; i < design.channels.size(); ++i) {
    offer_opposite(design, sites[i], peak);
    if (design.wall == Wall::open) continue;
    for (std::size_t j = i + 1; j < design.channels.size(); ++j)
      add_equidistant_on_circle(sites[i], sites[j], design.diameter_m / 2.0, points);
  }
  peak.offer_all(points);
}

void offer_closed_sides(const Design& design, const std::vector<Site>& sites, Peak& peak) {
  for (const double x : {-0.5, 0.5})
    for (const double y : {-0.5, 0.5}) peak.offer({x * design.length_m, y * design.width_m});
  std::vector<Point> points;
  for (const ClosedLine& side : sides_of(design)) {
    for (std::size_t i = 0; i < sites.size(); ++i)
      for (std::size_t j = i + 1; j < sites.size(); ++j) add_equidistant_on_line(sites[i], sites[j], side, points);
  }
  peak.offer_all(points);
}

void offer_triples(const std::vector<Site>& sites, Peak& peak) {
  std::vector<Point> points;
  for (std::size_t i = 0; i < sites.size(); ++i) {
    for (std::size_t j = i + 1; j < sites.size(); ++j) {
      for (std::size_t k = j + 1; k < sites.size(); ++k) add_equidistant(sites[i], sites[j], sites[k], points);
      peak.offer_all(points);
      if (peak.enough()) return;
    }
  }
}

/// The peak of the plan, or the first point found beyond `enough_m`.
Peak find_peak(const Design& design, const std::vector<Site>& sites, double enough_m) {
  Peak peak(design, sites, enough_m);
  if (design.footprint == Footprint::round) offer_round_wall(design, sites, peak);
  if (design.footprint == Footprint::rectangular && design.wall == Wall::closed)
    offer_closed_sides(design, sites, peak);
  if (!peak.enough()) offer_triples(sites, peak);
  return peak;
}

}  // namespace

double plan_length_m(const Design& design, double enough_m) {
  const std::vector<Site> sites = sites_of(design);
  return sites.empty() ? infinity : find_peak(design, sites, enough_m).length_m();
}

AirPath longest_air_path(const Design& design) {
  const std::vector<Site> sites = sites_of(design);
  AirPath path;
  const double by_height = design.base_open ? design.fill_height_m / 2.0 : design.fill_height_m;
  path.plan_length_m = infinity;
  if (!sites.empty()) {
    const Peak peak = find_peak(design, sites, infinity);
    path.plan_length_m = peak.length_m();
    path.where = peak.where();
  }
  path.height_m = design.base_open ? design.fill_height_m / 2.0 : 0.0;
  path.limited_by_height = by_height < path.plan_length_m;
  path.length_m = std::min(by_height, path.plan_length_m);
  return path;
}

}  // namespace stillheap::vessel
