#include "present/sheet/section_figure.hpp"

#include <algorithm>
#include <cmath>

#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

using forecast::Snapshot;
using plan::VesselPlan;

constexpr std::size_t most_columns = 4;
constexpr double name_width_pt = 66.0;  ///< row names at the left
constexpr double column_gap_pt = 10.0;
constexpr double row_gap_pt = 8.0;
constexpr double field_gap_pt = 14.0;
constexpr double head_height_pt = 30.0;
constexpr double most_height_pt = 610.0;  ///< so that figure and heading fit one page of the lesser paper

struct Layout {
  double column_pt = 0.0, plan_pt = 0.0, upright_pt = 0.0, scale_pt_m = 0.0;
  [[nodiscard]] double field_pt() const { return plan_pt + row_gap_pt + upright_pt + field_gap_pt; }
};

Layout layout_for(double width_pt, const vessel::Design& design) {
  const double fields = 3.0;
  Layout layout;
  layout.column_pt = (width_pt - name_width_pt - 3.0 * column_gap_pt) / static_cast<double>(most_columns);
  const double room = (most_height_pt - head_height_pt - colour_bar_height_pt) / fields - row_gap_pt - field_gap_pt;
  layout.scale_pt_m =
      std::min(layout.column_pt / vessel::across_m(design), room / (vessel::deep_m(design) + design.height_m));
  layout.plan_pt = vessel::deep_m(design) * layout.scale_pt_m;
  layout.upright_pt = design.height_m * layout.scale_pt_m;
  return layout;
}

struct Scene {
  Canvas& canvas;
  const Box& box;
  const VesselPlan& vessel;
  const std::vector<std::size_t>& chosen;
  Layout layout;
  [[nodiscard]] double column_x(std::size_t column) const {
    return box.x + name_width_pt + static_cast<double>(column) * (layout.column_pt + column_gap_pt);
  }
};

void draw_rows(const Scene& scene, const ShownField& shown, Span scale, double top) {
  const forecast::Result& result = scene.vessel.forecast;
  const vessel::Design& design = scene.vessel.design;
  const Layout& layout = scene.layout;
  const double below = top + layout.plan_pt + row_gap_pt;
  for (std::size_t c = 0; c < scene.chosen.size(); ++c) {
    const Snapshot& snapshot = result.snapshots[scene.chosen[c]];
    const double x = scene.column_x(c);
    draw_plan_cell(scene.canvas, {x, top, layout.column_pt, layout.plan_pt}, design, result.mesh, snapshot, shown,
                   scale, layout.scale_pt_m);
    draw_upright_cell(scene.canvas, {x, below, layout.column_pt, layout.upright_pt}, design, result.mesh, snapshot,
                      shown, scale, layout.scale_pt_m);
  }
  const Style name{8.5};
  draw_text(scene.canvas, {scene.box.x, top}, shown.name + ", plan at half height", name, name_width_pt - 6.0);
  draw_text(scene.canvas, {scene.box.x, below}, shown.name + ", upright cut through the middle", name,
            name_width_pt - 6.0);
}

}  // namespace

std::vector<std::size_t> telling_snapshots(const forecast::Result& result) {
  std::vector<std::size_t> chosen;
  const auto& snapshots = result.snapshots;
  if (snapshots.empty()) return chosen;
  const double last = snapshots.back().day;
  const double peak = std::clamp(result.summary.peak_day.middle, 0.0, last);
  for (const double wanted :
       {std::min(1.0, 0.5 * peak), peak, std::sqrt(std::max(1.0, peak) * std::max(1.0, last)), last}) {
    const auto nearest = std::min_element(
        snapshots.begin(), snapshots.end(),
        [&](const Snapshot& a, const Snapshot& b) { return std::abs(a.day - wanted) < std::abs(b.day - wanted); });
    const auto index = static_cast<std::size_t>(nearest - snapshots.begin());
    if (std::find(chosen.begin(), chosen.end(), index) == chosen.end()) chosen.push_back(index);
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

std::vector<std::vector<std::size_t>> section_figures(const plan::Plan& plan, const forecast::Result& result) {
  if (result.snapshots.empty() || result.mesh.levels < 2) return {};
  if (plan.site.picture_days.empty()) return {telling_snapshots(result)};
  std::vector<std::vector<std::size_t>> figures;
  for (std::size_t i = 0; i < result.snapshots.size(); ++i) {
    if (i % most_columns == 0) figures.emplace_back();
    figures.back().push_back(i);
  }
  return figures;
}

double section_figure_height(double width_pt, const VesselPlan& vessel) {
  return head_height_pt + 3.0 * layout_for(width_pt, vessel.design).field_pt() + colour_bar_height_pt;
}

void draw_section_figure(Canvas& canvas, const Box& box, const VesselPlan& vessel,
                         const std::vector<std::size_t>& chosen, Date start, UnitSystem units) {
  const Scene scene{canvas, box, vessel, chosen, layout_for(box.width, vessel.design)};
  for (std::size_t c = 0; c < chosen.size(); ++c) {
    const double day = vessel.forecast.snapshots[chosen[c]].day;
    const double middle = scene.column_x(c) + 0.5 * scene.layout.column_pt;
    draw_label(canvas, {middle, box.y}, day_words(day), {10.0, Weight::strong}, Across::middle, Down::top);
    draw_label(canvas, {middle, box.y + 13.0}, short_date(after(start, day)), {8.5, Weight::regular, soft},
               Across::middle, Down::top);
  }
  const std::vector<ShownField> fields = shown_fields(units);
  const double bar_width = (box.width - 2.0 * 18.0) / 3.0;
  const double bars_top = box.y + head_height_pt + 3.0 * scene.layout.field_pt();
  for (std::size_t f = 0; f < fields.size(); ++f) {
    const Span scale = shared_scale(vessel.forecast.snapshots, fields[f], units);
    const auto place = static_cast<double>(f);
    draw_rows(scene, fields[f], scale, box.y + head_height_pt + place * scene.layout.field_pt());
    draw_colour_bar(canvas, {box.x + place * (bar_width + 18.0), bars_top, bar_width, colour_bar_height_pt}, fields[f],
                    scale, units);
  }
}

}  // namespace stillheap::sheet
