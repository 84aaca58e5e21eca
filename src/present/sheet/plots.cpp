#include <cairo-pdf.h>

#include <cctype>
#include <functional>
#include <set>

#include "core/base/error.hpp"
#include "present/sheet/forecast_charts.hpp"
#include "present/sheet/pack.hpp"
#include "present/sheet/section_figure.hpp"
#include "present/sheet/words.hpp"
#include "present/sheet/year_sheet.hpp"

namespace stillheap::sheet {
namespace {

using Draw = std::function<void(Canvas&)>;

constexpr double margin_pt = 14.0;
constexpr double pixels_per_pt = 2.0;  // chosen: 144 dots per inch

struct Plot {
  std::string name;
  Paper paper;
  Draw draw;
  bool to_print = false;  ///< as PDF too
};

/// "Nordhang 2" -> "nordhang-2", safe in every file system; never empty.
std::string file_word(const std::string& name) {
  std::string word;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 && byte < 128) {
      word += static_cast<char>(std::tolower(byte));
    } else if (!word.empty() && word.back() != '-') {
      word += '-';
    }
  }
  while (!word.empty() && word.back() == '-') word.pop_back();
  return word.empty() ? "vessel" : word;
}

Canvas canvas_for(const std::filesystem::path& file, const std::string& end, const Paper& paper,
                  const std::string& date) {
  if (end == ".svg") return Canvas::svg(file, paper);
  if (end == ".png") return Canvas::png(file, paper, pixels_per_pt);
  Canvas canvas = Canvas::pdf(file, paper);
  // The start date, not the clock: the same plan must give the same file.
  for (const auto which : {CAIRO_PDF_METADATA_CREATE_DATE, CAIRO_PDF_METADATA_MOD_DATE})
    cairo_pdf_surface_set_metadata(canvas.surface(), which, (date + "T00:00:00Z").c_str());
  return canvas;
}

Plot chart_plot(const std::string& name, const Chart& chart, double height_pt) {
  const Paper paper{560.0, height_pt, name};
  return {name, paper, [chart, paper](Canvas& canvas) {
            draw_chart(canvas, shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, margin_pt), chart);
          }};
}

Plot height_and_mass_plot(const forecast::Result& result, Date start, UnitSystem units) {
  const Paper paper{560.0, 220.0, "height-and-mass"};
  const Chart height = height_chart(result, start, units);
  const Chart mass = mass_chart(result, start, units);
  return {"height-and-mass", paper, [height, mass, paper](Canvas& canvas) {
            const Box all = shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, margin_pt);
            const double half = 0.5 * (all.width - 20.0);
            draw_chart(canvas, {all.x, all.y, half, all.height}, height);
            draw_chart(canvas, {all.x + half + 20.0, all.y, half, all.height}, mass);
          }};
}

std::vector<Plot> plots_of(const plan::Plan& plan, const plan::VesselPlan& vessel) {
  const Date start = read_date(plan.site.start_date);
  const UnitSystem units = plan.site.units;
  const forecast::Result& result = vessel.forecast;
  std::vector<Plot> plots{chart_plot("temperature", temperature_chart(result, start, units), 320.0),
                          chart_plot("oxygen", oxygen_chart(result, start, units), 240.0),
                          chart_plot("moisture", moisture_chart(result, start, units), 240.0),
                          height_and_mass_plot(result, start, units)};
  if (result.snapshots.empty() || result.mesh.levels < 2) return plots;
  Paper paper{560.0, 0.0, "sections"};
  paper.height_pt = section_figure_height(paper.width_pt - 2.0 * margin_pt, vessel) + 2.0 * margin_pt;
  int count = 0;
  for (const auto& chosen : section_figures(plan, result)) {
    const std::string name = ++count == 1 ? "sections" : "sections-" + std::to_string(count);
    plots.push_back({name, paper, [&vessel, chosen, start, units, paper](Canvas& canvas) {
                       draw_section_figure(canvas, shrink({0.0, 0.0, paper.width_pt, paper.height_pt}, margin_pt),
                                           vessel, chosen, start, units);
                     }});
  }
  plots.push_back({"year", year_paper(units, vessel),
                   [&plan, &vessel](Canvas& canvas) { draw_year_sheet(canvas, plan, vessel); }, true});
  return plots;
}

}  // namespace

std::vector<std::filesystem::path> write_plots(const plan::Plan& plan, const std::filesystem::path& folder) {
  std::error_code fault;
  std::filesystem::create_directories(folder, fault);
  if (fault)
    throw RunError(folder.string(), "the folder for the plots cannot be made", "choose a folder that can be written");
  std::vector<std::filesystem::path> files;
  std::set<std::string> taken;
  for (const plan::VesselPlan& vessel : plan.vessels) {
    std::string word = file_word(vessel.design.name);
    for (int i = 2; !taken.insert(word).second; ++i) word = file_word(vessel.design.name) + "-" + std::to_string(i);
    for (const Plot& plot : plots_of(plan, vessel)) {
      const std::filesystem::path stem = folder / (word + "-" + plot.name);
      for (const std::string end : {".svg", ".png", ".pdf"}) {
        if (end == ".pdf" && !plot.to_print) continue;
        files.emplace_back(stem.string() + end);
        Canvas canvas = canvas_for(files.back(), end, plot.paper, plan.site.start_date);
        plot.draw(canvas);
        canvas.finish();
      }
    }
  }
  return files;
}

}  // namespace stillheap::sheet
