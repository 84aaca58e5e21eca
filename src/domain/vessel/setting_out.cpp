#include "domain/vessel/setting_out.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/constants.hpp"
#include "domain/vessel/base.hpp"

namespace stillheap::vessel {
namespace {

bool is_round(const Design& design) { return design.footprint == Footprint::round; }
double along_x_m(const Design& design) { return is_round(design) ? design.diameter_m : design.length_m; }
double along_y_m(const Design& design) { return is_round(design) ? design.diameter_m : design.width_m; }

int count_at_spacing(double length_m, double spacing_m) {
  return static_cast<int>(std::ceil(length_m / spacing_m - 1e-9)) + 1;
}

/// Straight closed walls: boards one above the other, held by posts that stand on the ground outside them, one at each
/// corner and between corners no farther apart than allowed.
void set_boards(const Design& design, const Allowances& allowances, Development& flat) {
  flat.board_m = allowances.wall_board_m;
  flat.boards_a_side = static_cast<int>(std::ceil(design.height_m / flat.board_m - 1e-9));
  for (const double side : {design.length_m, design.width_m}) {
    flat.posts += 2 * (count_at_spacing(side, allowances.post_spacing_m) - 1);
  }
  flat.post_length_m = design.height_m + (design.base_open ? design.base_gap_m + deck_thickness_m : 0.0);
}

}  // namespace

double chord_m(double radius_m, double angle_rad) noexcept { return 2.0 * radius_m * std::sin(0.5 * angle_rad); }

double hoop_inside_m(double ring_radius_m, double pipe_diameter_m) noexcept {
  return 2.0 * ring_radius_m + pipe_diameter_m;
}

Frame footprint_frame(const Design& design, double margin_m) noexcept {
  const double x = 0.5 * along_x_m(design) + margin_m;
  const double y = 0.5 * along_y_m(design) + margin_m;
  return {-x, -y, x, y};
}

Frame channels_frame(const Design& design, double margin_m) noexcept {
  Frame frame;
  for (const Channel& channel : design.channels) {
    const double radius = 0.5 * channel.diameter_m;
    frame.left_m = std::min(frame.left_m, channel.centre.x_m - radius);
    frame.right_m = std::max(frame.right_m, channel.centre.x_m + radius);
    frame.low_m = std::min(frame.low_m, channel.centre.y_m - radius);
    frame.high_m = std::max(frame.high_m, channel.centre.y_m + radius);
  }
  return {frame.left_m - margin_m, frame.low_m - margin_m, frame.right_m + margin_m, frame.high_m + margin_m};
}

std::vector<double> tie_heights_m(const Design& design, const Allowances& allowances) {
  std::vector<double> heights;
  const double wire = design.mesh ? design.mesh->spacing_m : 0.0;
  if (wire <= 0.0 || wire > design.height_m) {
    const int ties = count_at_spacing(design.height_m, allowances.tie_spacing_m);
    for (int i = 0; i < ties; ++i) heights.push_back(design.height_m * i / (ties - 1));
    return heights;
  }
  const int wires = static_cast<int>(std::floor(design.height_m / wire + 1e-6));  // above the bottom one
  const int every = std::max(1, static_cast<int>(std::floor(allowances.tie_spacing_m / wire + 1e-6)));
  for (int i = 0; i < wires; i += every) heights.push_back(i * wire);
  heights.push_back(wires * wire);
  return heights;
}

double tie_pitch_m(const Design& design, const Allowances& allowances) {
  const std::vector<double> heights = tie_heights_m(design, allowances);
  double most = 0.0;
  for (std::size_t i = 1; i < heights.size(); ++i) most = std::max(most, heights[i] - heights[i - 1]);
  return most;
}

Development development_of(const Design& design, const Allowances& allowances) {
  Development flat;
  const double height = design.height_m;
  if (is_round(design)) {
    flat.panels = {{1, perimeter_m(design), height}};
  } else if (std::abs(design.length_m - design.width_m) < 5e-4) {
    flat.panels = {{4, design.length_m, height}};
  } else {
    flat.panels = {{2, std::max(design.length_m, design.width_m), height},
                   {2, std::min(design.length_m, design.width_m), height}};
  }
  if (design.wall == Wall::closed) {
    if (!is_round(design)) set_boards(design, allowances, flat);
    return flat;
  }
  flat.joints = is_round(design) ? 1 : 4;
  flat.tie_heights_m = tie_heights_m(design, allowances);
  flat.flap_m = design.lining_overlap_m;
  flat.fold_m = design.lining_fold_m;
  flat.lining_length_m = perimeter_m(design) + flat.flap_m;
  flat.lining_height_m = design.height_m + 2.0 * flat.fold_m;
  return flat;
}

FormHolder form_holder_of(const Design& design) {
  constexpr double same_m = 1e-3;
  constexpr double batten_beyond_m = 0.04;  // chosen: past the wall at each end
  if (design.channels.empty()) return {};
  double outermost_m = 0.0;
  for (const Channel& channel : design.channels) outermost_m = std::max(outermost_m, distance_m(channel.centre, {}));
  int on_ring = 0;
  double pipe_m = 0.0;
  std::set<long> rows;
  for (const Channel& channel : design.channels) {
    rows.insert(std::lround(channel.centre.y_m / same_m));
    if (outermost_m - distance_m(channel.centre, {}) > same_m) continue;
    ++on_ring;
    pipe_m = std::max(pipe_m, channel.diameter_m);
  }
  if (is_round(design) && on_ring >= 3) return {true, 1, constant::pi * hoop_inside_m(outermost_m, pipe_m)};
  return {false, 2 * static_cast<int>(rows.size()), footprint_frame(design, batten_beyond_m).width_m()};
}

LinePlace line_place(const Design& design, double inset_m, double along_share) noexcept {
  const double share = along_share - std::floor(along_share);
  if (is_round(design)) {
    const double radius = 0.5 * design.diameter_m - inset_m;
    const double angle = 2.0 * constant::pi * share - 0.5 * constant::pi;
    return {2.0 * constant::pi * radius * share, {radius * std::cos(angle), radius * std::sin(angle)}};
  }
  const double a = 0.5 * design.length_m - inset_m;
  const double b = 0.5 * design.width_m - inset_m;
  const double along = share * 4.0 * (a + b);
  double rest = along;
  if (rest <= a) return {along, {rest, -b}};
  rest -= a;
  if (rest <= 2.0 * b) return {along, {a, -b + rest}};
  rest -= 2.0 * b;
  if (rest <= 2.0 * a) return {along, {a - rest, b}};
  rest -= 2.0 * a;
  if (rest <= 2.0 * b) return {along, {-a, b - rest}};
  return {along, {-a + rest - 2.0 * b, -b}};
}

}  // namespace stillheap::vessel
