#include "domain/vessel/setting_out.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/constants.hpp"

namespace stillheap::vessel {
namespace {

bool is_round(const Design& design) { return design.footprint == Footprint::round; }
double along_x_m(const Design& design) { return is_round(design) ? design.diameter_m : design.length_m; }
double along_y_m(const Design& design) { return is_round(design) ? design.diameter_m : design.width_m; }

int count_at_spacing(double length_m, double spacing_m) {
  return static_cast<int>(std::ceil(length_m / spacing_m - 1e-9)) + 1;
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

bool slats_along_x(const Design& design) noexcept {
  if (design.slats.empty()) return true;
  const Slat& slat = design.slats.front();
  return std::abs(slat.to.x_m - slat.from.x_m) >= std::abs(slat.to.y_m - slat.from.y_m);
}

std::vector<Slat> bearers_of(const Design& design, const Allowances& allowances, double thickness_m) {
  std::vector<Slat> bearers;
  if (!design.base_open || design.base_gap_m <= 0.0) return bearers;
  const bool along_x = slats_along_x(design);
  const double run = along_x ? along_x_m(design) : along_y_m(design);
  const double half = 0.5 * (along_x ? along_y_m(design) : along_x_m(design));
  const int count = count_at_spacing(run, allowances.bearer_spacing_m);
  for (int i = 0; i < count; ++i) {
    const double at = (static_cast<double>(i) / (count - 1) - 0.5) * (run - thickness_m);
    bearers.push_back(along_x ? Slat{{at, -half}, {at, half}, thickness_m}
                              : Slat{{-half, at}, {half, at}, thickness_m});
  }
  return bearers;
}

Development development_of(const Design& design, const Allowances& allowances) {
  Development flat;
  const double height = design.panel_width_m > 0.0 ? design.panel_width_m : design.height_m;
  flat.joints = is_round(design) ? 1 : 4;
  if (is_round(design)) {
    flat.panels = {{1, perimeter_m(design), height}};
  } else if (std::abs(design.length_m - design.width_m) < 5e-4) {
    flat.panels = {{4, design.length_m, height}};
  } else {
    flat.panels = {{2, std::max(design.length_m, design.width_m), height},
                   {2, std::min(design.length_m, design.width_m), height}};
  }
  const int ties = count_at_spacing(height, allowances.tie_spacing_m);
  for (int i = 0; i < ties; ++i) flat.tie_heights_m.push_back(height * i / (ties - 1));
  flat.flap_m = design.lining_overlap_m;
  flat.fold_m = design.lining_fold_m;
  flat.lining_length_m = perimeter_m(design) + flat.flap_m;
  flat.lining_height_m = design.height_m + 2.0 * flat.fold_m;
  return flat;
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
