#include "present/sheet/year_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "present/sheet/pages.hpp"
#include "present/sheet/words.hpp"

namespace stillheap::sheet {
namespace {

constexpr std::size_t most_columns = 8;
constexpr double margin_pt = 32.0;
constexpr double name_width_pt = 80.0;
constexpr double gap_pt = 8.0;
constexpr double title_pt = 40.0;
constexpr double head_pt = 28.0;
constexpr double note_pt = 34.0;
constexpr double beside_rows_pt = title_pt + head_pt + colour_bar_height_pt + note_pt + 4.0 * gap_pt;

struct Layout {
  Box all;
  double column_pt = 0.0, row_pt = 0.0, scale_pt_m = 0.0;
};

Layout layout_for(const Paper& paper, const vessel::Design& design, std::size_t columns) {
  Layout layout{shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, margin_pt)};
  const auto count = static_cast<double>(std::max<std::size_t>(columns, 4));  // a few days do not fill the page's width
  layout.column_pt = (layout.all.width - name_width_pt - (count - 1.0) * gap_pt) / count;
  const double room = (layout.all.height - beside_rows_pt) / 3.0;
  layout.scale_pt_m = std::min(layout.column_pt / vessel::across_m(design), room / design.height_m);
  layout.row_pt = design.height_m * layout.scale_pt_m;
  return layout;
}

void draw_heads(Canvas& canvas, const Layout& layout, const plan::Plan& plan, const plan::VesselPlan& vessel,
                const std::vector<std::size_t>& chosen) {
  const Date start = read_date(plan.site.start_date);
  draw_text(canvas, {layout.all.x, layout.all.y}, vessel_title(vessel.design) + ": inside over the run",
            {16.0, Weight::strong});
  for (std::size_t c = 0; c < chosen.size(); ++c) {
    const double day = vessel.forecast.snapshots[chosen[c]].day;
    const double x = layout.all.x + name_width_pt + static_cast<double>(c) * (layout.column_pt + gap_pt);
    const Spot at{x + 0.5 * layout.column_pt, layout.all.y + title_pt};
    draw_label(canvas, at, day_words(day), {10.0, Weight::strong}, Across::middle, Down::top);
    draw_label(canvas, {at.x, at.y + 13.0}, short_date(after(start, day)), {8.0, Weight::regular, soft}, Across::middle,
               Down::top);
  }
}

}  // namespace

Paper year_paper(UnitSystem units, const plan::VesselPlan& vessel) {
  const Paper upright = paper_for(units);
  Paper paper{upright.height_pt, upright.width_pt, upright.name};
  const Layout layout = layout_for(paper, vessel.design, year_snapshots(vessel.forecast).size());
  paper.height_pt = std::min(paper.height_pt, 2.0 * margin_pt + beside_rows_pt + 3.0 * layout.row_pt);
  return paper;
}

std::vector<std::size_t> year_snapshots(const forecast::Result& result) {
  const std::size_t count = result.snapshots.size();
  std::vector<std::size_t> chosen;
  for (std::size_t c = 0; c < std::min(count, most_columns); ++c) {
    const double share = count > most_columns ? static_cast<double>(c) / (most_columns - 1) : 0.0;
    chosen.push_back(
        count > most_columns ? static_cast<std::size_t>(std::lround(share * static_cast<double>(count - 1))) : c);
  }
  return chosen;
}

void draw_year_sheet(Canvas& canvas, const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const forecast::Result& result = vessel.forecast;
  const std::vector<std::size_t> chosen = year_snapshots(result);
  if (chosen.empty() || result.mesh.levels < 2) return;
  const Layout layout = layout_for(canvas.paper(), vessel.design, chosen.size());
  draw_heads(canvas, layout, plan, vessel, chosen);
  const std::vector<ShownField> fields = shown_fields(plan.site.units);
  const double first_row = layout.all.y + title_pt + head_pt;
  const double bars_top = first_row + 3.0 * (layout.row_pt + gap_pt) + gap_pt;
  const double bar_width = (layout.all.width - 2.0 * 24.0) / 3.0;
  for (std::size_t f = 0; f < fields.size(); ++f) {
    const auto place = static_cast<double>(f);
    const Span scale = shared_scale(result.snapshots, fields[f], plan.site.units);
    const double top = first_row + place * (layout.row_pt + gap_pt);
    draw_text(canvas, {layout.all.x, top}, fields[f].name, {9.5, Weight::strong}, name_width_pt - 6.0);
    for (std::size_t c = 0; c < chosen.size(); ++c) {
      const double x = layout.all.x + name_width_pt + static_cast<double>(c) * (layout.column_pt + gap_pt);
      draw_upright_cell(canvas, {x, top, layout.column_pt, layout.row_pt}, vessel.design, result.mesh,
                        result.snapshots[chosen[c]], fields[f], scale, layout.scale_pt_m);
    }
    draw_colour_bar(canvas, {layout.all.x + place * (bar_width + 24.0), bars_top, bar_width, colour_bar_height_pt},
                    fields[f], scale, plan.site.units);
  }
  const forecast::Summary& s = result.summary;
  draw_text(canvas, {layout.all.x, bars_top + colour_bar_height_pt + 6.0},
            "Upright cuts through the middle; channels in the way stay white, and so does the room the heap leaves as "
            "it sinks. One run, the middle one: the band puts the peak at " +
                temperature_span(s.peak_temperature_c, plan.site.units) + ", the lowest oxygen at " +
                percent_span(s.lowest_oxygen, 1) + " and the driest place at " + percent_span(s.driest_moisture_wet) +
                " moisture.",
            style::note, layout.all.width);
}

}  // namespace stillheap::sheet
