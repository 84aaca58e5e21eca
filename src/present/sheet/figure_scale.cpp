#include <algorithm>
#include <array>
#include <span>

#include "present/sheet/vessel_figure.hpp"

namespace stillheap::sheet {
namespace {

constexpr double points_a_metre = 72.0 / 0.0254;
// Round scales: decimal ones for metric, parts of an inch to the foot for US (1:12 is one inch to the foot).
constexpr std::array metric_scales{5.0, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0};
constexpr std::array us_scales{4.0, 6.0, 8.0, 12.0, 16.0, 20.0, 24.0, 32.0, 48.0, 64.0, 96.0, 128.0, 192.0};

constexpr double plan_margin_pt = 104.0;    ///< dimension lines above and below the plan
constexpr double upright_margin_pt = 84.0;  ///< below and above the upright view
constexpr double least_upright_pt = 205.0;  ///< four callouts of two or three lines beside a low vessel, and the bar
constexpr double widest_share = 0.56;       ///< of the page, the rest is for callouts and dimension lines

}  // namespace

double plan_view_height(const vessel::Design& design, const Scale& scale) noexcept {
  return vessel::deep_m(design) * scale.pt_m + plan_margin_pt;
}

double upright_view_height(const vessel::Design& design, const Scale& scale) noexcept {
  return std::max(least_upright_pt, (design.height_m + design.base_gap_m) * scale.pt_m + upright_margin_pt);
}

Scale round_scale(UnitSystem units, double wide_m, double high_m, double width_pt, double height_pt) {
  const std::span<const double> scales =
      units == UnitSystem::us ? std::span<const double>(us_scales) : std::span<const double>(metric_scales);
  for (const double denominator : scales) {
    const double pt_m = points_a_metre / denominator;
    if (wide_m * pt_m <= width_pt && high_m * pt_m <= height_pt) return {denominator, pt_m};
  }
  return {scales.back(), points_a_metre / scales.back()};
}

Scale figure_scale(const vessel::Design& design, UnitSystem units, double width_pt, double height_pt) {
  const std::span<const double> scales =
      units == UnitSystem::us ? std::span<const double>(us_scales) : std::span<const double>(metric_scales);
  for (const double denominator : scales) {
    const Scale scale{denominator, points_a_metre / denominator};
    const bool wide = vessel::across_m(design) * scale.pt_m > widest_share * width_pt;
    if (!wide && plan_view_height(design, scale) + upright_view_height(design, scale) <= height_pt) return scale;
  }
  return {scales.back(), points_a_metre / scales.back()};
}

}  // namespace stillheap::sheet
